#include "graph/live_tree.hpp"

namespace spadework::graph {

LiveTree::LiveTree(const SearchNetwork& network, const RouteTree& tree)
    : network_(network), root_(tree.root()), nodes_(network.vertex_count), saved_in_(network.vertex_count, 0) {
    const TreeView view(network, tree);
    for (auto v = view.order.rbegin(); v != view.order.rend(); ++v) {
        if (*v != root_) link(*v, tree.parent_edge(*v));
        nodes_[*v].carried = view.carried[*v];
        nodes_[*v].from_root = view.from_root[*v];
    }
    for (const VertexId v : network.demand_at)
        ++nodes_[v].demands;
    remember();
}

LiveTree::Node& LiveTree::touch(VertexId v) {
    if (saved_in_[v] != round_) {
        saved_in_[v] = round_;
        saved_.push_back({v, nodes_[v]});
    }
    return nodes_[v];
}

void LiveTree::remember() {
    ++round_;
    saved_.clear();
}

void LiveTree::take_back() {
    for (const auto& [v, node] : saved_)
        nodes_[v] = node;
    remember();
}

bool LiveTree::list_below(VertexId top, std::vector<VertexId>& below, std::size_t most) const {
    below.assign(1, top);
    for (std::size_t i = 0; i < below.size(); ++i) {
        if (below.size() > most) return false;
        for (VertexId c = nodes_[below[i]].first_child; c >= 0; c = nodes_[c].next_sibling)
            below.push_back(c);
    }
    return true;
}

void LiveTree::link(VertexId v, EdgeId up) {
    const VertexId above = network_.across(up, v);
    Node& node = touch(v);
    Node& parent = touch(above);
    node.up = up;
    node.previous_sibling = -1;
    node.next_sibling = parent.first_child;
    if (parent.first_child >= 0) touch(parent.first_child).previous_sibling = v;
    parent.first_child = v;
    ++parent.children;
}

void LiveTree::unlink(VertexId v) {
    Node& node = touch(v);
    Node& parent = touch(network_.across(node.up, v));
    (node.previous_sibling >= 0 ? touch(node.previous_sibling).next_sibling : parent.first_child) = node.next_sibling;
    if (node.next_sibling >= 0) touch(node.next_sibling).previous_sibling = node.previous_sibling;
    --parent.children;
    node.up = -1;
    node.next_sibling = -1;
    node.previous_sibling = -1;
}

/// Adds the rate, or takes it off, at the vertex and all above it.
void LiveTree::add_above(VertexId v, PathRate rate, std::int32_t sign) {
    for (;;) {
        Node& node = touch(v);
        if (sign > 0) {
            node.carried += rate;
        } else {
            node.carried -= rate;
        }
        if (v == root_) break;
        v = parent(v);
    }
}

/// Takes vertices out that nothing needs, from `v` upwards; returns the opening costs saved.
double LiveTree::prune_from(VertexId v) {
    double saved = 0.0;
    while (v != root_ && nodes_[v].demands == 0 && nodes_[v].children == 0) {
        const VertexId above = parent(v);
        saved += network_.opening[nodes_[v].up];
        unlink(v);
        nodes_[v].carried = {};
        v = above;
    }
    return saved;
}

/// Turns the edges of a part that hangs nowhere from `top` so that it hangs by `hanging`.
void LiveTree::turn(VertexId top, VertexId hanging) {
    scratch_.assign(1, hanging);
    while (scratch_.back() != top)
        scratch_.push_back(parent(scratch_.back()));
    const PathRate all = nodes_[top].carried;
    for (std::size_t i = scratch_.size(); i-- > 1;) {
        const VertexId upper = scratch_[i];
        const VertexId lower = scratch_[i - 1];
        const EdgeId between = nodes_[lower].up;
        unlink(lower);
        link(upper, between);
        Node& node = touch(upper);
        node.carried = all;
        node.carried -= nodes_[lower].carried;
    }
    touch(hanging).carried = all;
}

void LiveTree::measure_below(VertexId top) {
    list_below(top, scratch_);
    for (const VertexId v : scratch_) {
        Node& node = touch(v);
        node.from_root = nodes_[network_.across(node.up, v)].from_root + network_.reach[node.up];
    }
}

void LiveTree::rehang(VertexId top, const std::vector<VertexId>& way, const std::vector<EdgeId>& edges) {
    const PathRate all = nodes_[top].carried;
    const VertexId above = parent(top);
    add_above(above, all, -1);
    unlink(top);
    prune_from(above);
    turn(top, way.back());
    for (std::size_t i = 1; i < way.size(); ++i) {
        link(way[i], edges[i - 1]);
        if (i + 1 < way.size()) touch(way[i]).carried = all;
    }
    add_above(way.front(), all, 1);
    measure_below(way[1]);
}

double LiveTree::take_out(std::int32_t demand) {
    const VertexId v = network_.demand_at[demand];
    add_above(v, network_.rate[demand], -1);
    --touch(v).demands;
    return prune_from(v);
}

void LiveTree::put_in(std::int32_t demand, const std::vector<VertexId>& way, const std::vector<EdgeId>& edges) {
    for (std::size_t i = 1; i < way.size(); ++i) {
        link(way[i], edges[i - 1]);
        touch(way[i]).carried = {};
        nodes_[way[i]].from_root = nodes_[way[i - 1]].from_root + network_.reach[edges[i - 1]];
    }
    const VertexId v = network_.demand_at[demand];
    ++touch(v).demands;
    add_above(v, network_.rate[demand], 1);
}

RouteTree LiveTree::plain() const {
    RouteTree tree(network_, root_);
    for (VertexId v = 0; v < network_.vertex_count; ++v) {
        if (nodes_[v].up >= 0) tree.hang(v, nodes_[v].up);
    }
    return tree;
}

}  // namespace spadework::graph
