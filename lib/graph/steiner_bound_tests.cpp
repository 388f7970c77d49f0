#include "graph/steiner_bound_tests.hpp"

#include <algorithm>
#include <set>

namespace spadework::graph::steiner {

namespace {

constexpr std::int32_t kMostEdges = 5;  ///< Of a vertex worth eliminating.

}  // namespace

void Findings::add(const Network& network, const Remainder& left) {
    const Cost room = left.room;
    const RestDistances far = rest_distances(network, left.root, left.rest);
    for (VertexId v = 0; v < network.vertex_count(); ++v) {
        if (network.is_terminal(v)) continue;
        if (far.from_root[v] + far.to_terminal[v] >= room) vertex_out_[v] = 1;
        if (far.from_root[v] + far.to_terminal[v] + far.to_second[v] >= room) two_edges_[v] = 1;
    }
    for (std::int32_t h = 0; h < network.half_count(); ++h) {
        const std::int32_t twin = network.half(h).twin;
        if (twin < h) continue;
        const VertexId u = network.half(h).to;
        const VertexId v = network.half(twin).to;
        if (far.from_root[u] + left.rest[h] + far.to_terminal[v] >= room &&
            far.from_root[v] + left.rest[twin] + far.to_terminal[u] >= room) {
            edge_out_[h] = edge_out_[twin] = 1;
        }
    }
    for (VertexId v = 0; v < network.vertex_count(); ++v) {
        if (!network.is_terminal(v) && network.degree(v) <= kMostEdges) look_at_passes(network, left, far, v);
    }
}

void Findings::look_at_passes(const Network& network, const Remainder& left, const RestDistances& far, VertexId v) {
    const auto passes = [&](std::int32_t in, std::int32_t out) {
        const Half& to = network.half(out);
        return far.from_root[network.half(in).to] + left.rest[in] + left.rest[to.twin] + far.to_terminal[to.to] <
               left.room;
    };
    for (std::int32_t g = network.first(v); g < network.end(v); ++g) {
        for (std::int32_t h = g + 1; h < network.end(v); ++h) {
            if (!passes(g, h) && !passes(h, g)) barred_.push_back({g, h});
        }
    }
}

std::size_t Findings::apply(const Network& network, Graph& graph) const {
    std::size_t taken = 0;
    for (std::int32_t h = 0; h < network.half_count(); ++h) {
        const EdgeId e = network.edge_in_graph(h);
        const bool out = edge_out_[h] || vertex_out_[network.half(h).to];
        if (!out || !graph.alive(e)) continue;
        graph.erase(e);
        ++taken;
    }
    std::set<std::pair<EdgeId, EdgeId>> barred;
    for (const Pass& pass : barred_)
        barred.emplace(network.edge_in_graph(pass.one), network.edge_in_graph(pass.other));
    std::vector<char> changed(graph.vertex_count(), 0);
    for (VertexId i = 0; i < network.vertex_count(); ++i) {
        const VertexId v = network.vertex_in_graph(i);
        if (!two_edges_[i] || changed[v] || graph.degree(v) < 3 || graph.degree(v) > kMostEdges) continue;
        const std::vector<EdgeId>& at = graph.incident(v);
        if (std::any_of(at.begin(), at.end(), [&](EdgeId e) { return changed[graph.across(e, v)] != 0; })) continue;
        std::vector<std::pair<EdgeId, EdgeId>> pairs;
        for (std::size_t g = 0; g < at.size(); ++g) {
            for (std::size_t h = g + 1; h < at.size(); ++h) {
                if (!barred.contains({at[g], at[h]}) && !barred.contains({at[h], at[g]}))
                    pairs.emplace_back(at[g], at[h]);
            }
        }
        if (pairs.size() > at.size() || !graph.can_eliminate(v)) continue;
        changed[v] = 1;
        for (const EdgeId e : at)
            changed[graph.across(e, v)] = 1;
        graph.eliminate(v, pairs);
        ++taken;
    }
    return taken;
}

}  // namespace spadework::graph::steiner
