#pragma once

// How much of a time limit is left, and what still fits.

#include <algorithm>
#include <chrono>

namespace spadework::graph {

class SolveClock {
public:
    explicit SolveClock(double limit_seconds) : limit_seconds_(limit_seconds) {}

    [[nodiscard]] double passed() const {
        const std::chrono::duration<double> time = std::chrono::steady_clock::now() - start_;
        return time.count();
    }

    /// Time that is spoken for at the end.
    void keep_back(double seconds) { kept_back_ = seconds; }

    /// Seconds until work must end; below 0 when it should have.
    [[nodiscard]] double left() const { return limit_seconds_ - kept_back_ - passed(); }

    /// Share of the time that is gone, 0 to 1 and more.
    [[nodiscard]] double share_gone() const { return passed() / (limit_seconds_ - kept_back_); }

private:
    double limit_seconds_;
    double kept_back_ = 0.0;
    std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

/// The longest time that a piece of work has taken so far.
class LongestTime {
public:
    /// Does the work, whatever `work()` is, and takes the time.
    template <class Work>
    void of(const SolveClock& clock, Work work) {
        const double begin = clock.passed();
        work();
        seconds_ = std::max(seconds_, clock.passed() - begin);
    }
    [[nodiscard]] double seconds() const { return seconds_; }

private:
    double seconds_ = 0.0;
};

}  // namespace spadework::graph
