#pragma once

// A routing problem as a mixed integer program for general solvers.

#include <string>

#include "graph/shared_cost_problem.hpp"

namespace spadework::bench {

/// Whether an edge has one opening variable, or one for each direction of which either is paid.
enum class OpeningVariables { each_edge, each_direction };

/// The disaggregated flow model in free MPS text, for the problem's first root:
///   min  sum over edges opening * y + sum over demands and arcs (weight * length + multiplicity * passage) * x
///   x - y <= 0 for each demand and arc;  flow of 1 from the root to each demand;  y binary, x >= 0.
/// Its linear relaxation is the strongest of the usual models (Balakrishnan, Magnanti, Wong 1989). One opening variable
/// for each direction is valid, and stronger, where all demands measure paths alike.
std::string flow_model_mps(const graph::SharedCostProblem& problem, OpeningVariables variables);

}  // namespace spadework::bench
