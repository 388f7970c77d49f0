#include "graph/steiner_reductions.hpp"

#include <algorithm>
#include <deque>

#include "graph/steiner_special_distance.hpp"

namespace spadework::graph::steiner {

namespace {

constexpr int kMostSettled = 120;  ///< How far an edge's detour is looked for.

/// The first edge at the vertex that costs nothing, or the cheapest one that leads from a terminal to a terminal and is
/// no dearer than any other; -1 where there is none.
EdgeId edge_to_take(const Graph& graph, VertexId v) {
    Cost least = kLargestCost;
    for (const EdgeId e : graph.incident(v)) {
        if (graph.edge(e).cost == 0) return e;
        least = std::min(least, graph.edge(e).cost);
    }
    if (!graph.is_terminal(v) || graph.terminal_count() < 2) return -1;
    if (graph.degree(v) == 1) return graph.incident(v).front();
    for (const EdgeId e : graph.incident(v)) {
        if (graph.edge(e).cost == least && graph.is_terminal(graph.across(e, v))) return e;
    }
    return -1;
}

/// Edges at `v` that a search from there beats.
void find_long_edges(const Network& network, const SpecialDistances& special, NearbySearch& search, VertexId v,
                     std::vector<char>& is_long) {
    Cost longest = 0;
    for (std::int32_t h = network.first(v); h < network.end(v); ++h) {
        const Half& half = network.half(h);
        if (half.to > v) is_long[h] = special.at_most(v, half.to, half.cost) < half.cost ? 1 : 0;
        if (!is_long[h]) longest = std::max(longest, half.cost);
    }
    if (network.degree(v) < 2) return;
    search.run(v, -1, longest, kMostSettled);
    for (std::int32_t h = network.first(v); h < network.end(v); ++h) {
        if (search.label(network.half(h).to) < network.half(h).cost) is_long[h] = 1;
    }
}

}  // namespace

void settle_degrees(Graph& graph) {
    std::deque<VertexId> queue;
    const auto fetch = [&] {
        for (const VertexId v : graph.take_touched())
            queue.push_back(v);
        return !queue.empty();
    };
    while (fetch()) {
        const VertexId v = queue.front();
        queue.pop_front();
        if (graph.degree(v) == 0) continue;
        if (const EdgeId e = edge_to_take(graph, v); e >= 0) {
            graph.contract(e);
        } else if (!graph.is_terminal(v) && graph.degree(v) == 1) {
            graph.erase(graph.incident(v).front());
        } else if (!graph.is_terminal(v) && graph.degree(v) == 2 && graph.can_eliminate(v)) {
            graph.eliminate(v, {{graph.incident(v)[0], graph.incident(v)[1]}});
        }
    }
}

void erase_cut_off(Graph& graph) {
    std::vector<char> reached(graph.vertex_count(), 0);
    std::vector<VertexId> rest;
    for (VertexId v = 0; v < graph.vertex_count(); ++v) {
        if (!graph.is_terminal(v)) continue;
        reached[v] = 1;
        rest.push_back(v);
    }
    while (!rest.empty()) {
        const VertexId here = rest.back();
        rest.pop_back();
        for (const EdgeId e : graph.incident(here)) {
            const VertexId next = graph.across(e, here);
            if (reached[next]) continue;
            reached[next] = 1;
            rest.push_back(next);
        }
    }
    for (VertexId v = 0; v < graph.vertex_count(); ++v) {
        if (!reached[v]) graph.erase_vertex(v);
    }
}

std::size_t erase_long_edges(Graph& graph, WorkerTeam& team) {
    const Network network(graph);
    const SpecialDistances special(network);
    std::vector<NearbySearch> searches(team.size(), NearbySearch(network));
    std::vector<char> is_long(network.half_count(), 0);
    team.run(network.vertex_count(), 256, [&](std::size_t v, std::size_t worker) {
        find_long_edges(network, special, searches[worker], static_cast<VertexId>(v), is_long);
    });
    std::size_t erased = 0;
    for (std::int32_t h = 0; h < network.half_count(); ++h) {
        if (!is_long[h] || !graph.alive(network.edge_in_graph(h))) continue;
        graph.erase(network.edge_in_graph(h));
        ++erased;
    }
    return erased;
}

}  // namespace spadework::graph::steiner
