#include "graph/route_tree.hpp"

#include <algorithm>

namespace spadework::graph {

RouteTree::RouteTree(const SearchNetwork& network, VertexId root)
    : root_(root), parent_edge_(network.vertex_count, -1) {}

void RouteTree::turn_to(const SearchNetwork& network, VertexId root) {
    EdgeId down = -1;
    for (VertexId here = root; here >= 0;) {
        const EdgeId up = parent_edge_[here];
        parent_edge_[here] = down;
        down = up;
        here = up < 0 ? -1 : network.across(up, here);
    }
    root_ = root;
}

void RouteTree::prune(const SearchNetwork& network) {
    std::vector<std::int32_t> needed(network.vertex_count, 0);
    for (const VertexId v : network.demand_at)
        ++needed[v];
    std::vector<VertexId> members;
    for (VertexId v = 0; v < network.vertex_count; ++v) {
        if (parent_edge_[v] < 0) continue;
        members.push_back(v);
        ++needed[parent(network, v)];
    }
    for (VertexId v : members) {
        while (parent_edge_[v] >= 0 && needed[v] == 0) {
            const VertexId up = parent(network, v);
            parent_edge_[v] = -1;
            --needed[up];
            v = up;
        }
    }
}

double RouteTree::cost(const SearchNetwork& network, const std::vector<double>& opening) const {
    const TreeView view(network, *this);
    double total = 0.0;
    for (const VertexId v : view.order) {
        const EdgeId up = parent_edge_[v];
        if (up >= 0) total += opening[up] + charge(view.carried[v], network.reach[up]);
    }
    return total;
}

TreeView::TreeView(const SearchNetwork& network, const RouteTree& tree)
    : from_root(network.vertex_count),
      carried(network.vertex_count),
      child_count(network.vertex_count, 0),
      demands_below(network.vertex_count, 0),
      has_demand(network.vertex_count, 0),
      place(network.vertex_count, 0),
      size_below(network.vertex_count, 0) {
    std::vector<VertexId> first_child(network.vertex_count, -1);
    std::vector<VertexId> next_sibling(network.vertex_count, -1);
    for (VertexId v = network.vertex_count; v-- > 0;) {
        if (tree.parent_edge(v) < 0) continue;
        const VertexId up = tree.parent(network, v);
        next_sibling[v] = first_child[up];
        first_child[up] = v;
        ++child_count[up];
    }
    std::vector<VertexId> pending{tree.root()};
    while (!pending.empty()) {
        const VertexId v = pending.back();
        pending.pop_back();
        place[v] = depth_first.size();
        depth_first.push_back(v);
        for (VertexId c = first_child[v]; c >= 0; c = next_sibling[c]) {
            from_root[c] = from_root[v] + network.reach[tree.parent_edge(c)];
            pending.push_back(c);
        }
    }
    order = depth_first;
    for (std::size_t d = 0; d < network.demand_at.size(); ++d) {
        carried[network.demand_at[d]] += network.rate[d];
        ++demands_below[network.demand_at[d]];
        has_demand[network.demand_at[d]] = 1;
    }
    for (auto v = order.rbegin(); v != order.rend(); ++v) {
        ++size_below[*v];
        if (tree.parent_edge(*v) < 0) continue;
        const VertexId up = tree.parent(network, *v);
        carried[up] += carried[*v];
        demands_below[up] += demands_below[*v];
        size_below[up] += size_below[*v];
    }
}

SharedCostPlan plan_of(const SearchNetwork& network, const RouteTree& tree) {
    SharedCostPlan plan;
    const auto option = std::find(network.root_at.begin(), network.root_at.end(), tree.root());
    plan.root = static_cast<std::int32_t>(option - network.root_at.begin());
    for (const VertexId at : network.demand_at) {
        std::vector<EdgeId>& path = plan.paths.emplace_back();
        for (VertexId v = at; v != tree.root(); v = tree.parent(network, v))
            path.push_back(tree.parent_edge(v));
        std::reverse(path.begin(), path.end());
    }
    return plan;
}

}  // namespace spadework::graph
