#pragma once

#include <chrono>
#include <map>
#include <string>

#include "study/study.hpp"

namespace spadework {

/// One line on standard error that shows how far each layout is from its bound. Drawn only when standard error is a
/// terminal, at most 10 times a second, and erased at the end. Also passes Ctrl-C on to the solvers.
class ProgressLine : public StudyObserver {
public:
    /// `wanted` false draws nothing anywhere.
    explicit ProgressLine(bool wanted);
    ~ProgressLine() override { erase(); }
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;

    void started(LayoutKind layout) override;
    void improved(LayoutKind layout, std::int64_t value, std::int64_t bound) override;
    void explained(int done, int of) override;
    [[nodiscard]] bool should_stop() const override;

    /// Takes the line off the screen.
    void erase();

private:
    using Clock = std::chrono::steady_clock;

    void draw();

    bool draws_;
    Clock::time_point last_drawn_;
    int columns_drawn_ = 0;
    std::map<LayoutKind, std::string> state_;  ///< "gap 1.25 %" for each layout begun.
    std::string explained_;                    ///< How many alternatives have been looked at, once any has.
};

}  // namespace spadework
