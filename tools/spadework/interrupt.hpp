#pragma once

namespace spadework {

/// While it lives, the first Ctrl-C (SIGINT) is noted instead of ending the program; the second one ends it.
class InterruptWatch {
public:
    InterruptWatch();
    ~InterruptWatch();
    InterruptWatch(const InterruptWatch&) = delete;
    InterruptWatch& operator=(const InterruptWatch&) = delete;

    [[nodiscard]] static bool interrupted();
};

}  // namespace spadework
