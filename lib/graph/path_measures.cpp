#include "graph/path_measures.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

namespace spadework::graph {

namespace {

/// Weight and multiplicity in lowest terms.
std::pair<Cost, Cost> proportion(const Demand& demand) {
    const Cost divisor = std::gcd(demand.weight, demand.multiplicity);
    if (divisor == 0) return {0, 0};
    return {demand.weight / divisor, demand.multiplicity / divisor};
}

}  // namespace

std::vector<std::int32_t> path_measures(const SharedCostProblem& problem) {
    std::vector<std::int32_t> measures(problem.demands.size(), 0);
    const auto& edges = problem.edges;
    const bool no_passage = std::all_of(edges.begin(), edges.end(), [](const auto& e) { return e.passage == 0; });
    const bool no_length = std::all_of(edges.begin(), edges.end(), [](const auto& e) { return e.length == 0; });
    if (no_passage || no_length) return measures;
    std::map<std::pair<Cost, Cost>, std::int32_t> known;
    for (std::size_t d = 0; d < measures.size(); ++d) {
        const auto key = proportion(problem.demands[d]);
        if (key == std::pair<Cost, Cost>{0, 0}) continue;
        measures[d] = known.try_emplace(key, static_cast<std::int32_t>(known.size())).first->second;
    }
    return measures;
}

}  // namespace spadework::graph
