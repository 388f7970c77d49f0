#include "graph/inward_arcs.hpp"

#include <algorithm>
#include <limits>

namespace spadework::graph {

namespace {

/// Vertices in the order of a depth-first walk along the shortest paths from the roots, so that what lies around a path
/// lies together.
std::vector<VertexId> walk(const SearchNetwork& network, const std::vector<PathLength>& to_root) {
    std::vector<VertexId> by_reach(network.vertex_count);
    for (VertexId v = 0; v < network.vertex_count; ++v)
        by_reach[v] = v;
    const auto reach = [&](VertexId v) { return to_root[v].length + to_root[v].passage; };
    std::stable_sort(by_reach.begin(), by_reach.end(), [&](auto a, auto b) { return reach(a) < reach(b); });
    std::vector<char> met(network.vertex_count, 0);
    std::vector<VertexId> order;
    std::vector<VertexId> pending;
    for (const VertexId start : by_reach) {
        pending.push_back(start);
        while (!pending.empty()) {
            const VertexId here = pending.back();
            pending.pop_back();
            if (met[here]) continue;
            met[here] = 1;
            order.push_back(here);
            for (const Step& step : network.steps.from(here)) {
                const PathLength& along = network.reach[step.edge];
                const double onwards = reach(here) + along.length + along.passage;
                if (!met[step.to] && onwards <= reach(step.to) * (1.0 + 1e-9)) pending.push_back(step.to);
            }
        }
    }
    return order;
}

}  // namespace

InwardArcs::InwardArcs(const SearchNetwork& network, const std::vector<PathLength>& to_root)
    : spot_of(network.vertex_count), place_of(2 * network.edge_count(), kNoArc) {
    const std::vector<VertexId> order = walk(network, to_root);
    for (std::uint32_t spot = 0; spot < order.size(); ++spot)
        spot_of[order[spot]] = spot;
    first.push_back(0);
    for (const VertexId v : order) {
        for (const Step& step : network.steps.from(v)) {
            const PathLength way = network.reach[step.edge] + to_root[step.to];
            arc.push_back(arc_from(network, step.edge, step.to));
            place_of[arc.back()] = static_cast<std::uint32_t>(at.size());
            at.push_back({spot_of[step.to], std::max(way.length - to_root[v].length, 0.0)});
            if (!network.one_measure) passage_excess.push_back(std::max(way.passage - to_root[v].passage, 0.0));
        }
        first.push_back(static_cast<std::uint32_t>(at.size()));
    }
}

}  // namespace spadework::graph
