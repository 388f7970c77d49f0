#pragma once

// What every program that solves problems of one root lets its user choose.

#include <CLI/CLI.hpp>

#include "graph/shared_cost_solver.hpp"

namespace spadework::bench {

/// Declares --seconds, --splits and --threads; `limits` must outlive the parsing.
inline void add_solve_options(CLI::App& app, graph::SolveLimits& limits) {
    constexpr int usual_splits = 1000;
    limits.most_splits = usual_splits;
    app.add_option("--seconds", limits.seconds, "wall-clock limit (default 10)")->check(CLI::NonNegativeNumber);
    app.add_option("--splits", limits.most_splits,
                   "how often plans from a fixed root may be split by whether they use an edge, where prices leave a "
                   "gap (default 1000)")
        ->check(CLI::NonNegativeNumber);
    app.add_option("--threads", limits.threads, "threads; the answer is the same (default 1)")
        ->check(CLI::PositiveNumber);
}

}  // namespace spadework::bench
