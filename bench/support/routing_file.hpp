#pragma once

// Benchmark files of routing problems, read exactly.

#include <cstdint>
#include <string>
#include <vector>

#include "graph/shared_cost_problem.hpp"
#include "support/decimal.hpp"

namespace spadework::bench {

/// How a file becomes a problem.
struct ReadingChoice {
    Decimal trench_price{1, 0};  ///< `.stp`: times an edge's weight gives its opening cost.
    Decimal cable_price{0, 0};   ///< `.stp`: times an edge's weight is what each path pays.
    bool free_root = false;      ///< Site maps: any node of type 0 or 1 may be the root; the given root is a demand.
    Decimal site_cost{0, 0};     ///< With free_root: what every root costs.
};

/// The problem in whole units, `units_per_cost` of them to the file's cost unit, or what is wrong with the file.
struct RoutingCase {
    graph::SharedCostProblem problem;
    std::int64_t units_per_cost = 1;
    std::vector<std::string> errors;  ///< "line 12: ...". Empty when the problem is good.
};

/// Reads `.stp` text (SECTION Graph and Terminals; the first terminal is the root) or "CT" site-map text, told apart by
/// the first line.
RoutingCase read_routing_case(const std::string& text, const ReadingChoice& choice);

/// The whole file, unpacked when it is gzipped. Throws std::runtime_error when it cannot be read.
std::string file_text(const std::string& path);

}  // namespace spadework::bench
