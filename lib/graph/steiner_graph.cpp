#include "graph/steiner_graph.hpp"

#include <algorithm>

namespace spadework::graph::steiner {

Graph::Graph(VertexId vertex_count, const std::vector<InputEdge>& edges, const std::vector<VertexId>& terminals)
    : incident_(vertex_count),
      terminal_(vertex_count, 0),
      input_count_(static_cast<std::int32_t>(edges.size())),
      is_touched_(vertex_count, 0) {
    edges_.reserve(edges.size());
    for (std::size_t e = 0; e < edges.size(); ++e)
        add_edge(edges[e].tail, edges[e].head, edges[e].cost, static_cast<std::int32_t>(e));
    for (const VertexId t : terminals)
        make_terminal(t);
    for (VertexId v = 0; v < vertex_count; ++v)
        touch(v);
}

EdgeId Graph::edge_between(VertexId u, VertexId v) const {
    if (degree(u) > degree(v)) std::swap(u, v);
    for (const EdgeId e : incident_[u]) {
        if (across(e, u) == v) return e;
    }
    return -1;
}

void Graph::add_edge(VertexId u, VertexId v, Cost cost, std::int32_t piece) {
    if (u == v) return;
    const EdgeId parallel = edge_between(u, v);
    if (parallel >= 0) {
        Edge& known = edges_[parallel];
        if (known.cost <= cost) return;
        live_cost_ -= known.cost - cost;
        known.cost = cost;
        known.piece = piece;
        touch(u);
        touch(v);
        return;
    }
    const EdgeId e = edge_count();
    edges_.push_back({u, v, cost, piece});
    hang(u, e, &Edge::slot_at_tail);
    hang(v, e, &Edge::slot_at_head);
    ++live_edges_;
    live_cost_ += cost;
}

void Graph::hang(VertexId v, EdgeId e, std::int32_t Edge::*slot) {
    edges_[e].*slot = static_cast<std::int32_t>(incident_[v].size());
    incident_[v].push_back(e);
    touch(v);
}

void Graph::unhang(VertexId v, std::int32_t slot) {
    std::vector<EdgeId>& list = incident_[v];
    const EdgeId last = list.back();
    list[slot] = last;
    (edges_[last].tail == v ? edges_[last].slot_at_tail : edges_[last].slot_at_head) = slot;
    list.pop_back();
    touch(v);
}

void Graph::touch(VertexId v) {
    if (is_touched_[v]) return;
    is_touched_[v] = 1;
    touched_.push_back(v);
}

void Graph::erase(EdgeId e) {
    unhang(edges_[e].tail, edges_[e].slot_at_tail);
    unhang(edges_[e].head, edges_[e].slot_at_head);
    edges_[e].slot_at_tail = edges_[e].slot_at_head = -1;
    --live_edges_;
    live_cost_ -= edges_[e].cost;
}

void Graph::erase_vertex(VertexId v) {
    while (!incident_[v].empty())
        erase(incident_[v].back());
}

void Graph::make_terminal(VertexId v) {
    if (terminal_[v]) return;
    terminal_[v] = 1;
    ++terminal_count_;
    touch(v);
}

VertexId Graph::contract(EdgeId e) {
    VertexId stays = edges_[e].tail;
    VertexId goes = edges_[e].head;
    if (degree(stays) < degree(goes)) std::swap(stays, goes);
    fixed_cost_ += edges_[e].cost;
    fixed_.push_back(edges_[e].piece);
    erase(e);
    while (!incident_[goes].empty()) {
        const EdgeId moved = incident_[goes].back();
        const Edge old = edges_[moved];
        const VertexId other = across(moved, goes);
        erase(moved);
        add_edge(stays, other, old.cost, old.piece);
    }
    if (terminal_[goes]) {
        terminal_[goes] = 0;
        --terminal_count_;
        make_terminal(stays);
    }
    touch(stays);
    return stays;
}

bool Graph::can_eliminate(VertexId v) const {
    WideCost more = live_cost_;
    for (const EdgeId e : incident_[v])
        more += static_cast<WideCost>(edges_[e].cost) * static_cast<WideCost>(degree(v));
    return more <= kLargestSum;
}

void Graph::eliminate(VertexId v, const std::vector<std::pair<EdgeId, EdgeId>>& pairs) {
    struct Bypass {
        VertexId u;
        VertexId w;
        Cost cost;
        Piece piece;
    };
    std::vector<Bypass> bypasses;
    for (const auto& [e, f] : pairs)
        bypasses.push_back(
            {across(e, v), across(f, v), edges_[e].cost + edges_[f].cost, {edges_[e].piece, edges_[f].piece}});
    erase_vertex(v);
    for (const Bypass& bypass : bypasses) {
        const auto piece = static_cast<std::int32_t>(input_count_ + joined_.size());
        joined_.push_back(bypass.piece);
        add_edge(bypass.u, bypass.w, bypass.cost, piece);
    }
}

bool Graph::is_made_of(EdgeId e, const std::vector<char>& marked) const {
    std::vector<std::int32_t> rest{edges_[e].piece};
    while (!rest.empty()) {
        const std::int32_t piece = rest.back();
        rest.pop_back();
        if (piece < input_count_) {
            if (!marked[piece]) return false;
        } else {
            rest.push_back(joined_[piece - input_count_].first);
            rest.push_back(joined_[piece - input_count_].second);
        }
    }
    return true;
}

std::vector<VertexId> Graph::take_touched() {
    std::vector<VertexId> taken;
    taken.swap(touched_);
    for (const VertexId v : taken)
        is_touched_[v] = 0;
    return taken;
}

std::vector<EdgeId> Graph::input_edges(const std::vector<EdgeId>& edges) const {
    std::vector<std::int32_t> rest = fixed_;
    for (const EdgeId e : edges)
        rest.push_back(edges_[e].piece);
    std::vector<char> seen(input_count_ + joined_.size(), 0);
    std::vector<EdgeId> found;
    while (!rest.empty()) {
        const std::int32_t piece = rest.back();
        rest.pop_back();
        if (seen[piece]) continue;
        seen[piece] = 1;
        if (piece < input_count_) {
            found.push_back(piece);
        } else {
            rest.push_back(joined_[piece - input_count_].first);
            rest.push_back(joined_[piece - input_count_].second);
        }
    }
    std::sort(found.begin(), found.end());
    return found;
}

}  // namespace spadework::graph::steiner
