#include "graph/pair_routes_reroute.hpp"

#include <algorithm>
#include <utility>

namespace spadework::graph::pair_routes {

RouteSet::RouteSet(const Network& network)
    : network_(network),
      uses_(network.edges.size(), 0),
      free_(network.edges.size(), 0),
      label_(network.vertex_count, kLargestCost),
      came_by_(network.vertex_count, -1),
      queue_(network.vertex_count) {}

void RouteSet::forget() {
    for (const VertexId v : met_)
        label_[v] = kLargestCost;
    met_.clear();
    queue_.clear();
}

/// Labels up to `to` (all vertices for -1), none at or above `limit`.
void RouteSet::search(VertexId from, VertexId to, Charge charge, Cost limit) {
    label_[from] = 0;
    came_by_[from] = -1;
    met_.push_back(from);
    queue_.push_or_lower(from, 0);
    while (!queue_.empty()) {
        const VertexId here = queue_.pop();
        if (here == to) return;
        for (const Step& step : network_.steps.from(here)) {
            if (step.edge == banned_) continue;
            const SharedCostEdge& edge = network_.edges[step.edge];
            const bool paid = uses_[step.edge] > 0 || free_[step.edge] != 0;
            const Cost along = label_[here] + charge.on(edge) + (paid ? 0 : edge.opening);
            if (along >= limit || along >= label_[step.to]) continue;
            if (label_[step.to] == kLargestCost) met_.push_back(step.to);
            label_[step.to] = along;
            came_by_[step.to] = step.edge;
            queue_.push_or_lower(step.to, along);
        }
    }
}

void RouteSet::take_up(std::size_t pair) {
    for (const EdgeId e : paths_[pair]) {
        cost_ -= pairs_[pair].charge.on(network_.edges[e]);
        if (--uses_[e] == 0) cost_ -= network_.edges[e].opening;
    }
}

void RouteSet::put(std::size_t pair, std::vector<EdgeId> path) {
    for (const EdgeId e : path) {
        cost_ += pairs_[pair].charge.on(network_.edges[e]);
        if (uses_[e]++ == 0) cost_ += network_.edges[e].opening;
    }
    paths_[pair] = std::move(path);
}

/// Puts the pair on its cheapest path; false, with nothing put, when there is none below the limit.
bool RouteSet::lay_down(std::size_t pair, Cost limit) {
    const Pair& p = pairs_[pair];
    search(p.from, p.to, p.charge, limit);
    const bool found = label_[p.to] < limit;
    std::vector<EdgeId> path;
    if (found) {
        for (VertexId v = p.to; came_by_[v] >= 0;) {
            const SharedCostEdge& edge = network_.edges[came_by_[v]];
            path.push_back(came_by_[v]);
            v = edge.tail == v ? edge.head : edge.tail;
        }
        std::reverse(path.begin(), path.end());
    }
    forget();
    if (found) put(pair, std::move(path));
    return found;
}

void RouteSet::lay(const std::vector<Pair>& pairs, const std::vector<EdgeId>& open) {
    std::fill(uses_.begin(), uses_.end(), 0);
    cost_ = 0;
    pairs_ = pairs;
    paths_.assign(pairs.size(), {});
    for (const EdgeId e : open)
        free_[e] = 1;
    for (std::size_t p = 0; p < pairs_.size(); ++p)
        lay_down(p, kLargestCost);
    for (const EdgeId e : open)
        free_[e] = 0;
}

bool RouteSet::reroute(std::size_t pair) {
    const Cost before = cost_;
    std::vector<EdgeId> old = paths_[pair];
    take_up(pair);
    if (lay_down(pair, before - cost_)) return true;
    put(pair, std::move(old));
    return false;
}

bool RouteSet::close(EdgeId edge) {
    const Cost before = cost_;
    std::vector<std::pair<std::size_t, std::vector<EdgeId>>> moved;
    for (std::size_t p = 0; p < pairs_.size(); ++p) {
        if (std::find(paths_[p].begin(), paths_[p].end(), edge) == paths_[p].end()) continue;
        moved.emplace_back(p, paths_[p]);
        take_up(p);
        paths_[p].clear();
    }
    banned_ = edge;
    bool better = true;
    for (const auto& [p, old] : moved)
        better = better && cost_ < before && lay_down(p, before - cost_);
    banned_ = -1;
    if (better) return true;
    for (const auto& [p, old] : moved)
        take_up(p);
    for (auto& [p, old] : moved)
        put(p, std::move(old));
    return false;
}

void RouteSet::improve(const StopRule& stop) {
    for (bool changed = true; changed;) {
        changed = false;
        for (std::size_t p = 0; p < pairs_.size(); ++p) {
            if (stop.reached()) return;
            changed = reroute(p) || changed;
        }
        if (changed) continue;
        std::vector<char> tried(network_.edges.size(), 0);
        std::vector<std::int32_t> open_at(network_.vertex_count, 0);
        for (const Pair& p : pairs_)
            open_at[p.from] = open_at[p.to] = 3;
        for (const EdgeId e : open_edges()) {
            ++open_at[network_.edges[e].tail];
            ++open_at[network_.edges[e].head];
        }
        const auto try_stretch = [&](EdgeId start) {
            std::vector<EdgeId> stretch{start};
            tried[start] = 1;
            for (std::size_t i = 0; i < stretch.size(); ++i) {
                for (const VertexId end : {network_.edges[stretch[i]].tail, network_.edges[stretch[i]].head}) {
                    if (open_at[end] != 2) continue;
                    for (const Step& step : network_.steps.from(end)) {
                        if (uses_[step.edge] == 0 || tried[step.edge]) continue;
                        tried[step.edge] = 1;
                        stretch.push_back(step.edge);
                    }
                }
            }
            return close(start);
        };
        for (const EdgeId e : open_edges()) {
            if (stop.reached()) return;
            if (tried[e] || uses_[e] == 0) continue;
            changed = try_stretch(e) || changed;
        }
    }
}

std::vector<EdgeId> RouteSet::open_edges() const {
    std::vector<EdgeId> open;
    for (std::size_t e = 0; e < uses_.size(); ++e) {
        if (uses_[e] > 0) open.push_back(static_cast<EdgeId>(e));
    }
    return open;
}

std::vector<Cost> RouteSet::costs_from(VertexId from, Charge charge) {
    search(from, -1, charge, kLargestCost);
    std::vector<Cost> costs = label_;
    forget();
    return costs;
}

}  // namespace spadework::graph::pair_routes
