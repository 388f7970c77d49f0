#include "graph/ring_two_ways.hpp"

#include <algorithm>
#include <cstdlib>

#include "graph/saturating.hpp"

namespace spadework::graph::rings {

namespace {

constexpr Cost kUnreached = -1;

}  // namespace

WaySearch::WaySearch(const LinkNetwork& network)
    : network_(network),
      label_(network.vertex_count, kUnreached),
      came_by_(network.vertex_count, -1),
      potential_(network.vertex_count, kUnreached),
      ahead_(network.vertex_count, 0),
      flow_(network.links.size(), 0),
      queue_(static_cast<std::size_t>(network.vertex_count)) {}

void WaySearch::forget_labels() {
    for (const VertexId v : met_)
        label_[v] = kUnreached;
    met_.clear();
    queue_.clear();
}

void WaySearch::forget_flow() {
    for (const std::int32_t link : flowing_)
        flow_[link] = 0;
    flowing_.clear();
    for (const VertexId v : raised_)
        potential_[v] = kUnreached;
    raised_.clear();
    furthest_ = 0;
    flow_cost_ = 0;
}

/// Potentials are the labels of the first search, those beyond the goal cut down to its own.
void WaySearch::note_potentials(Cost furthest) {
    furthest_ = furthest;
    for (const VertexId v : met_) {
        if (label_[v] >= furthest) continue;
        potential_[v] = label_[v];
        raised_.push_back(v);
    }
}

/// What a step reaches for nothing never waits in the queue.
void WaySearch::relax(VertexId at, Cost label, const LinkStep& step) {
    Cost& known = label_[step.to];
    if (known != kUnreached && known <= label) return;
    if (known == kUnreached) met_.push_back(step.to);
    known = label;
    came_by_[step.to] = step.link;
    if (label == label_[at] && !queue_.holds(step.to)) {
        as_near_.push_back(step.to);
    } else {
        queue_.push_or_lower(step.to, label);
    }
}

void WaySearch::relax_first(VertexId at, const LinkStep& step, const std::vector<Cost>& price) {
    const Cost own = price[step.link];
    if (own >= 0) relax(at, label_[at] + own + ahead_[step.to] - ahead_[at], step);
}

void WaySearch::relax_second(VertexId at, const LinkStep& step, const std::vector<Cost>& price) {
    const Cost own = price[step.link];
    const int along = step.along * flow_[step.link];
    if (own < 0 || (along > 0 && !step.bridge)) return;
    const Cost potential = potential_[step.to] < 0 ? furthest_ : potential_[step.to];
    const Cost height = label_[at] + (potential_[at] < 0 ? furthest_ : potential_[at]);
    relax(at, height + (along < 0 ? -own : own) + ahead_[step.to] - ahead_[at] - potential, step);
}

/// Dijkstra's algorithm over what the flow leaves, which the first search does not have yet, to the nearer of two
/// vertices (-1 for none) if it costs less.
template <bool first>
WaySearch::Tip WaySearch::reach(VertexId from, VertexId a, VertexId b, const std::vector<Cost>& price, Cost below) {
    forget_labels();
    label_[from] = 0;
    came_by_[from] = -1;
    met_.push_back(from);
    queue_.push_or_lower(from, 0);
    while (!queue_.empty()) {
        as_near_.assign(1, queue_.pop());
        if (label_[as_near_.front()] >= below) return {};
        while (!as_near_.empty()) {
            const VertexId at = as_near_.back();
            as_near_.pop_back();
            if (at == a || at == b) return {at, label_[at]};
            for (const LinkStep& step : network_.from(at)) {
                if constexpr (first) {
                    relax_first(at, step, price);
                } else {
                    relax_second(at, step, price);
                }
            }
        }
    }
    return {};
}

void WaySearch::aim_at(VertexId to, const std::vector<Cost>& least_price) {
    std::fill(ahead_.begin(), ahead_.end(), 0);
    ahead_ = all_from(to, least_price);
}

void WaySearch::push_flow(VertexId from, VertexId to) {
    for (VertexId v = to; v != from;) {
        const std::int32_t link = came_by_[v];
        const bool forwards = network_.links[link].head == v;
        if (flow_[link] == 0) flowing_.push_back(link);
        flow_[link] = static_cast<std::int8_t>(flow_[link] + (forwards ? 1 : -1));
        v = forwards ? network_.links[link].tail : network_.links[link].head;
    }
}

/// A second way costs its label and the potential of where it ends, which is what the first cost: no less than that.
bool WaySearch::flow_twice(VertexId from, VertexId a, VertexId b, const std::vector<Cost>& price, Cost below) {
    forget_flow();
    const Tip nearer = reach<true>(from, a, b, price, below / 2 + below % 2);
    if (nearer.at < 0) return false;
    note_potentials(nearer.cost);
    push_flow(from, nearer.at);
    const VertexId other = nearer.at == a ? b : a;
    if (reach<false>(from, other, -1, price, below - 2 * nearer.cost).at < 0) return false;
    push_flow(from, other);
    return true;
}

/// Takes one way off the flow, up to the first of two vertices that it comes by, and says which. A way that comes by
/// another vertex again leaves the round trip out.
std::pair<LinkPath, VertexId> WaySearch::follow(VertexId from, VertexId a, VertexId b) {
    LinkPath path;
    std::vector<VertexId> passed{from};
    VertexId at = from;
    while (at != a && at != b) {
        for (const LinkStep& step : network_.from(at)) {
            std::int8_t& flow = flow_[step.link];
            if (flow * step.along <= 0) continue;
            flow = static_cast<std::int8_t>(flow - step.along);
            at = step.to;
            path.push_back(step.link);
            break;
        }
        const auto before = std::find(passed.begin(), passed.end(), at);
        if (before == passed.end()) {
            passed.push_back(at);
            continue;
        }
        path.resize(static_cast<std::size_t>(before - passed.begin()));
        passed.erase(before + 1, passed.end());
    }
    return {std::move(path), at};
}

std::optional<LinkPath> WaySearch::one_way(VertexId from, VertexId to, const std::vector<Cost>& price, Cost below) {
    forget_flow();
    if (reach<true>(from, to, -1, price, below).at < 0) return std::nullopt;
    LinkPath path;
    for (VertexId v = to; v != from;) {
        const Link& link = network_.links[came_by_[v]];
        path.push_back(came_by_[v]);
        v = link.head == v ? link.tail : link.head;
    }
    std::reverse(path.begin(), path.end());
    return path;
}

const std::vector<Cost>& WaySearch::all_from(VertexId from, const std::vector<Cost>& price) {
    forget_flow();
    reach<true>(from, -1, -1, price);
    return distances();
}

/// What the last search has labelled.
const std::vector<Cost>& WaySearch::distances() {
    distance_.assign(label_.size(), kLargestCost);
    for (const VertexId v : met_)
        distance_[v] = label_[v];
    return distance_;
}

std::optional<std::pair<LinkPath, LinkPath>> WaySearch::two_ways(VertexId from, VertexId to_first, VertexId to_second,
                                                                 const std::vector<Cost>& price, Cost below) {
    if (!flow_twice(from, to_first, to_second, price, below)) return std::nullopt;
    auto [one, reached] = follow(from, to_first, to_second);
    const VertexId other = reached == to_first ? to_second : to_first;
    LinkPath another = follow(from, other, other).first;
    if (reached != to_first) std::swap(one, another);
    return std::pair(std::move(one), std::move(another));
}

std::optional<WaySearch::Flow> WaySearch::two_flows(VertexId from, VertexId to, const std::vector<Cost>& price) {
    if (!flow_twice(from, to, to, price, kLargestCost)) return std::nullopt;
    Flow flow;
    for (const std::int32_t link : flowing_) {
        if (flow_[link] == 0) continue;
        flow.cost += price[link] * std::abs(static_cast<int>(flow_[link]));
        flow.links.push_back(link);
    }
    std::sort(flow.links.begin(), flow.links.end());
    flow.links.erase(std::unique(flow.links.begin(), flow.links.end()), flow.links.end());
    return flow;
}

}  // namespace spadework::graph::rings
