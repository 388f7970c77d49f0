#include "graph/chain_figures.hpp"

#include <algorithm>

#include "graph/saturating.hpp"

namespace spadework::graph::chains {

namespace {

/// An amount no plan can pass: every edge opened, and every hop taken over all edges.
WideCost most_possible(const ChainProblem& problem, int hops_a_stop) {
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
    return opening + stops * (hops_a_stop * hop + problem.chain_cost + problem.end_saving);
}

/// An edge each, and all together no more than 2^58.
bool good_spans(const ChainProblem& problem) {
    if (problem.span_of.empty()) return true;
    if (problem.span_of.size() != problem.edges.size() || problem.longest_hop < 0) return false;
    WideCost sum = 0;
    for (const Length span : problem.span_of) {
        if (span < 0) return false;
        sum += span;
    }
    return sum < (WideCost{1} << 58);
}

}  // namespace

bool well_formed(const ChainProblem& problem, int hops_a_stop) {
    const auto exists = [&](VertexId v) { return v >= 0 && v < problem.vertex_count; };
    const auto good_edge = [&](const SharedCostEdge& e) {
        return exists(e.tail) && exists(e.head) && e.opening >= 0 && e.length >= 0 && e.passage >= 0;
    };
    return exists(problem.source) && std::all_of(problem.stops.begin(), problem.stops.end(), exists) &&
           std::all_of(problem.edges.begin(), problem.edges.end(), good_edge) && problem.weight >= 0 &&
           problem.multiplicity >= 0 && problem.chain_cost >= 0 && problem.end_saving >= 0 &&
           problem.longest_chain >= 1 && most_possible(problem, hops_a_stop) < (WideCost{1} << 58) &&
           good_spans(problem);
}

std::vector<pair_routes::Pair> hops_of(const ChainProblem& problem, const Orders& orders) {
    std::vector<pair_routes::Pair> hops{{problem.source, problem.source, {}}};
    for (const auto& chain : orders) {
        VertexId from = problem.source;
        for (const std::int32_t stop : chain) {
            hops.push_back({from, problem.stops[stop], hop_charge(problem)});
            from = problem.stops[stop];
        }
    }
    return hops;
}

}  // namespace spadework::graph::chains
