#pragma once

// What a long computation tells its caller, and how the caller stops it.

#include <cstdint>

namespace spadework::graph {

/// Called from one thread at a time. Values are in the problem's own cost units.
class Progress {
public:
    virtual ~Progress() = default;

    /// The best plan and the best bound so far; called whenever either improves.
    virtual void improved(std::int64_t value, std::int64_t bound) = 0;

    /// True asks the computation to finish with the best it has. Cheap; called often.
    [[nodiscard]] virtual bool should_stop() const = 0;
};

}  // namespace spadework::graph
