#include "graph/well_formed.hpp"

#include <algorithm>

namespace spadework::graph {

bool well_formed(const SharedCostProblem& problem) {
    const auto exists = [&](VertexId v) { return v >= 0 && v < problem.vertex_count; };
    const auto good_edge = [&](const SharedCostEdge& e) {
        return exists(e.tail) && exists(e.head) && e.opening >= 0 && e.length >= 0 && e.passage >= 0;
    };
    const auto good_demand = [&](const Demand& d) { return exists(d.at) && d.weight >= 0 && d.multiplicity >= 0; };
    const auto good_root = [&](const RootOption& r) { return exists(r.at) && r.cost >= 0; };
    return std::all_of(problem.edges.begin(), problem.edges.end(), good_edge) &&
           std::all_of(problem.demands.begin(), problem.demands.end(), good_demand) &&
           std::all_of(problem.roots.begin(), problem.roots.end(), good_root);
}

}  // namespace spadework::graph
