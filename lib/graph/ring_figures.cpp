#include "graph/ring_figures.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "graph/chain_figures.hpp"
#include "graph/ring_certificate.hpp"

namespace spadework::graph {

namespace rings {

namespace {

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

/// Cuts span as much by one edge as by another.
bool spans_hold_together(const RingProblem& problem) {
    std::map<std::int32_t, Length> spans;
    for (std::size_t e = 0; e < problem.span_of.size(); ++e) {
        const Length span = problem.span_of[e];
        if (spans.try_emplace(problem.cut_of[e], span).first->second != span) return false;
    }
    return true;
}

}  // namespace

bool well_formed(const RingProblem& problem) {
    return chains::well_formed(open_rings(problem), 2) && cuts_hold_together(problem) && spans_hold_together(problem);
}

}  // namespace rings

ChainProblem open_rings(const RingProblem& problem) {
    ChainProblem open;
    open.vertex_count = problem.vertex_count;
    open.edges = problem.edges;
    open.source = problem.source;
    open.stops = problem.stops;
    open.weight = problem.weight;
    open.multiplicity = problem.multiplicity;
    open.chain_cost = problem.ring_cost;
    open.longest_chain = problem.longest_ring;
    open.span_of = problem.span_of;
    open.longest_hop = problem.longest_hop;
    return open;
}

}  // namespace spadework::graph
