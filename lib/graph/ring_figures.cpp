#include "graph/ring_figures.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "graph/saturating.hpp"

namespace spadework::graph::rings {

namespace {

/// An amount no plan can pass: every edge opened, and every hop taken over all edges.
WideCost most_possible(const RingProblem& problem) {
    WideCost opening = 0;
    WideCost length = 0;
    WideCost passage = 0;
    for (const SharedCostEdge& e : problem.edges) {
        opening += e.opening;
        length += e.length;
        passage += e.passage;
    }
    const auto stops = static_cast<WideCost>(problem.stops.size());
    const WideCost limit = WideCost{1} << 62;  // Factors above it would overflow the products below.
    if (length >= limit || passage >= limit) return limit;
    const WideCost hop = problem.weight * length + problem.multiplicity * passage;
    if (hop >= limit) return limit;
    return opening + stops * (2 * hop + problem.ring_cost);
}

bool cuts_hold_together(const RingProblem& problem) {
    if (problem.cut_of.size() != problem.edges.size()) return false;
    std::map<std::int32_t, std::pair<VertexId, VertexId>> ends;
    for (std::size_t e = 0; e < problem.edges.size(); ++e) {
        const auto here = std::minmax(problem.edges[e].tail, problem.edges[e].head);
        if (problem.cut_of[e] < 0) return false;
        if (ends.try_emplace(problem.cut_of[e], here).first->second != std::pair<VertexId, VertexId>(here))
            return false;
    }
    return true;
}

}  // namespace

bool well_formed(const RingProblem& problem) {
    const auto exists = [&](VertexId v) { return v >= 0 && v < problem.vertex_count; };
    const auto good_edge = [&](const SharedCostEdge& e) {
        return exists(e.tail) && exists(e.head) && e.opening >= 0 && e.length >= 0 && e.passage >= 0;
    };
    return exists(problem.source) && std::all_of(problem.stops.begin(), problem.stops.end(), exists) &&
           std::all_of(problem.edges.begin(), problem.edges.end(), good_edge) && cuts_hold_together(problem) &&
           problem.weight >= 0 && problem.multiplicity >= 0 && problem.ring_cost >= 0 && problem.longest_ring >= 1 &&
           most_possible(problem) < (WideCost{1} << 58);
}

}  // namespace spadework::graph::rings
