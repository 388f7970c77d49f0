#pragma once

#include "graph/shared_cost_solver.hpp"
#include "layout/design.hpp"

namespace spadework {

/// The limits of a design as the solvers take them.
inline graph::SolveLimits solver_limits(const DesignLimits& limits) {
    graph::SolveLimits solver;
    solver.seconds = limits.seconds;
    solver.target_gap = 0.0;
    solver.threads = limits.threads;
    solver.seed = limits.seed;
    solver.progress = limits.progress;
    return solver;
}

}  // namespace spadework
