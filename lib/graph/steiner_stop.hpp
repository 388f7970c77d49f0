#pragma once

// When to stop: time is up or the caller asks.

#include <algorithm>
#include <atomic>
#include <chrono>

#include "graph/progress.hpp"

namespace spadework::graph::steiner {

class StopSign {
public:
    StopSign(double seconds, const Progress* progress) : seconds_(seconds), progress_(progress) {}

    /// For the thread that called the solver: asks the caller too.
    [[nodiscard]] bool here() const {
        if (progress_ != nullptr && progress_->should_stop()) asked_ = true;
        return anywhere();
    }

    /// For any thread.
    [[nodiscard]] bool anywhere() const { return asked_ || passed() > seconds_; }

    /// Whether so great a share of the time has passed.
    [[nodiscard]] bool past_share(double share) const { return passed() > share * seconds_; }

    [[nodiscard]] double seconds_left() const { return std::max(0.0, seconds_ - passed()); }

private:
    [[nodiscard]] double passed() const {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
    }

    double seconds_;
    const Progress* progress_;
    std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
    mutable std::atomic<bool> asked_ = false;
};

}  // namespace spadework::graph::steiner
