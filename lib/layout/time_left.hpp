#pragma once

#include <algorithm>
#include <chrono>

#include "graph/shared_cost_solver.hpp"
#include "layout/design.hpp"

namespace spadework {

/// The time a design has left, and the limits of one solver run within it.
class TimeLeft {
public:
    explicit TimeLeft(const DesignLimits& limits) : limits_(limits), start_(std::chrono::steady_clock::now()) {}

    [[nodiscard]] double seconds() const {
        const std::chrono::duration<double> used = std::chrono::steady_clock::now() - start_;
        return std::max(0.0, limits_.seconds - used.count());
    }

    [[nodiscard]] bool asked_to_stop() const { return limits_.progress != nullptr && limits_.progress->should_stop(); }

    /// Limits for a run that may take a share of the time left.
    [[nodiscard]] graph::SolveLimits run(double share) const {
        graph::SolveLimits solver;
        solver.seconds = seconds() * share;
        solver.target_gap = limits_.target_gap;
        solver.threads = limits_.threads;
        solver.seed = limits_.seed;
        solver.progress = limits_.progress;
        return solver;
    }

private:
    DesignLimits limits_;
    std::chrono::steady_clock::time_point start_;
};

}  // namespace spadework
