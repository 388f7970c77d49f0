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

void RouteSet::limit(std::span<const Length> spans, const HopCharge& charge) {
    spans_ = spans;
    too_long_ = charge;
}

Cost RouteSet::price(EdgeId edge, Charge charge) const {
    const bool paid = uses_[edge] > 0 || free_[edge] != 0;
    return charge.on(network_.edges[edge]) + (paid ? 0 : network_.edges[edge].opening);
}

Cost RouteSet::charge_of(const std::vector<EdgeId>& path) const {
    if (!too_long_.limits()) return 0;
    Length span = 0;
    for (const EdgeId e : path)
        span += spans_[e];
    return too_long_.of(span);
}

/// Labels up to `to` (all vertices for -1), none at or above `limit`.
void RouteSet::search(VertexId from, VertexId to, Charge charge, Cost limit, const Weighing* weighing) {
    const Cost most = (Cost{1} << 60) / (static_cast<Cost>(network_.edges.size()) + 1);
    label_[from] = 0;
    came_by_[from] = -1;
    met_.push_back(from);
    queue_.push_or_lower(from, 0);
    while (!queue_.empty()) {
        const VertexId here = queue_.pop();
        if (here == to) return;
        for (const Step& step : network_.steps.from(here)) {
            if (step.edge == banned_) continue;
            const Cost own = price(step.edge, charge);
            const Cost along = label_[here] + (weighing == nullptr ? own : weighing->of(own, spans_[step.edge], most));
            if (along >= limit || along >= label_[step.to]) continue;
            if (label_[step.to] == kLargestCost) met_.push_back(step.to);
            label_[step.to] = along;
            came_by_[step.to] = step.edge;
            queue_.push_or_lower(step.to, along);
        }
    }
}

void RouteSet::take_up(std::size_t pair) {
    cost_ -= charge_of(paths_[pair]);
    for (const EdgeId e : paths_[pair]) {
        cost_ -= pairs_[pair].charge.on(network_.edges[e]);
        if (--uses_[e] == 0) cost_ -= network_.edges[e].opening;
    }
}

void RouteSet::put(std::size_t pair, std::vector<EdgeId> path) {
    cost_ += charge_of(path);
    for (const EdgeId e : path) {
        cost_ += pairs_[pair].charge.on(network_.edges[e]);
        if (uses_[e]++ == 0) cost_ += network_.edges[e].opening;
    }
    paths_[pair] = std::move(path);
}

/// The cheapest path below the limit, or the best by a weighing.
std::optional<std::vector<EdgeId>> RouteSet::cheapest(const Pair& pair, Cost limit, const Weighing* weighing) {
    search(pair.from, pair.to, pair.charge, limit, weighing);
    std::optional<std::vector<EdgeId>> path;
    if (label_[pair.to] < limit) {
        path.emplace();
        for (VertexId v = pair.to; came_by_[v] >= 0;) {
            path->push_back(came_by_[v]);
            v = other_end(came_by_[v], v);
        }
        std::reverse(path->begin(), path->end());
    }
    forget();
    return path;
}

MeasuredWays RouteSet::measured(const Pair& pair, const std::vector<EdgeId>& path) const {
    MeasuredWays sum;
    for (const EdgeId e : path) {
        sum.price += price(e, pair.charge);
        sum.span += spans_[e];
    }
    sum.charge = too_long_.of(sum.span);
    return sum;
}

/// Puts the pair on its cheapest path, or a shorter one where that is charged; false, with nothing put, when there is
/// none below the limit.
bool RouteSet::lay_down(std::size_t pair, Cost limit) {
    const Pair& p = pairs_[pair];
    auto path = cheapest(p, limit);
    if (!path) return false;
    if (charge_of(*path) > 0) {
        *path = cheapest_with_charges(
            std::move(*path), [&](Weighing weighing) { return cheapest(p, kLargestCost, &weighing); },
            [&](const std::vector<EdgeId>& way) { return measured(p, way); });
        if (measured(p, *path).all() >= limit) return false;
    }
    put(pair, std::move(*path));
    return true;
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
    const bool charged = too_long_.limits() && charge_found(from, charge, costs);
    forget();
    if (!charged) return costs;
    constexpr Weighing kSpans{0, true};
    search(from, -1, charge, kLargestCost, &kSpans);
    std::vector<Cost> by_shortest(costs.size(), kLargestCost);
    charge_found(from, charge, by_shortest);
    forget();
    for (std::size_t v = 0; v < costs.size(); ++v)
        costs[v] = std::min(costs[v], by_shortest[v]);
    return costs;
}

/// What the paths found last cost, charges counted; whether any is charged.
bool RouteSet::charge_found(VertexId from, Charge charge, std::vector<Cost>& costs) const {
    std::vector<MeasuredWays> way(label_.size());
    std::vector<char> known(label_.size(), 0);
    known[from] = 1;
    bool charged = false;
    std::vector<VertexId> up;
    for (const VertexId v : met_) {
        VertexId at = v;
        for (up.clear(); !known[at]; at = other_end(came_by_[at], at))
            up.push_back(at);
        for (; !up.empty(); up.pop_back()) {
            const VertexId next = up.back();
            way[next].price = way[at].price + price(came_by_[next], charge);
            way[next].span = way[at].span + spans_[came_by_[next]];
            known[next] = 1;
            at = next;
        }
        way[v].charge = too_long_.of(way[v].span);
        charged = charged || way[v].charge > 0;
        costs[v] = way[v].all();
    }
    return charged;
}

}  // namespace spadework::graph::pair_routes
