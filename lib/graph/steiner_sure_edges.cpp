#include <algorithm>

#include "graph/steiner_reductions.hpp"
#include "graph/steiner_special_distance.hpp"

namespace spadework::graph::steiner {

namespace {

/// The two cheapest of some edges.
struct TwoCheapest {
    std::int32_t first = -1;  ///< Half edge.
    Cost cost = kFar;
    Cost next_cost = kFar;

    void offer(std::int32_t h, Cost c) {
        if (c < cost) {
            next_cost = cost;
            cost = c;
            first = h;
        } else {
            next_cost = std::min(next_cost, c);
        }
    }
};

/// Distance to the nearest terminal other than `terminal`.
Cost distance_to_another(const NearTerminals& near, VertexId v, VertexId terminal) {
    const int i = near.of(v, 0).terminal == terminal ? 1 : 0;
    return near.of(v, i).terminal < 0 ? kFar : near.of(v, i).distance;
}

/// For each terminal the cheapest edges that leave what lies nearest to it.
std::vector<TwoCheapest> cheapest_ways_out(const Network& network, const NearTerminals& near) {
    std::vector<TwoCheapest> out(network.vertex_count());
    for (VertexId v = 0; v < network.vertex_count(); ++v) {
        const VertexId home = near.of(v, 0).terminal;
        if (home < 0) continue;
        for (std::int32_t h = network.first(v); h < network.end(v); ++h) {
            if (near.of(network.half(h).to, 0).terminal != home) out[home].offer(h, network.half(h).cost);
        }
    }
    return out;
}

}  // namespace

std::size_t contract_sure_edges(Graph& graph) {
    const Network network(graph);
    const NearTerminals near(network, 2);
    const std::vector<TwoCheapest> out = cheapest_ways_out(network, near);
    std::vector<EdgeId> sure;
    for (const VertexId t : network.terminals()) {
        TwoCheapest at;
        for (std::int32_t h = network.first(t); h < network.end(t); ++h)
            at.offer(h, network.half(h).cost);
        if (at.first >= 0 && at.next_cost < kFar) {
            const VertexId next = network.half(at.first).to;
            if (at.next_cost > at.cost + distance_to_another(near, next, t))
                sure.push_back(network.edge_in_graph(at.first));
        }
        const TwoCheapest& way = out[t];
        if (way.first < 0 || way.next_cost >= kFar) continue;
        const VertexId inside = network.at(way.first);
        const VertexId outside = network.half(way.first).to;
        if (way.next_cost > near.of(inside, 0).distance + way.cost + near.of(outside, 0).distance)
            sure.push_back(network.edge_in_graph(way.first));
    }
    std::sort(sure.begin(), sure.end());
    sure.erase(std::unique(sure.begin(), sure.end()), sure.end());
    std::size_t contracted = 0;
    for (const EdgeId e : sure) {
        if (!graph.alive(e)) continue;
        graph.contract(e);
        ++contracted;
    }
    return contracted;
}

}  // namespace spadework::graph::steiner
