#include "graph/two_level_siting.hpp"

#include <algorithm>
#include <numeric>

#include "graph/label_heap.hpp"
#include "graph/pair_routes_tree.hpp"
#include "graph/saturating.hpp"

namespace spadework::graph::two_level {

using pair_routes::RootedTree;

namespace {

constexpr std::int64_t kMostUnitsListed = 1 << 14;  ///< Feeders for more units are looked up one by one.

/// Length and passage from one tree position to every other.
struct TreeDistances {
    std::vector<Length> length;
    std::vector<Cost> passage;

    TreeDistances(const pair_routes::Network& network, const RootedTree& tree, std::int32_t from)
        : length(tree.vertex.size(), 0), passage(tree.vertex.size(), 0) {
        std::vector<char> known(tree.vertex.size(), 0);
        known[from] = 1;
        for (std::int32_t p = from; tree.parent[p] >= 0; p = tree.parent[p]) {
            step(network, tree, p, p, tree.parent[p]);
            known[tree.parent[p]] = 1;
        }
        for (std::int32_t p = 1; p < tree.count(); ++p) {
            if (!known[p]) step(network, tree, p, tree.parent[p], p);
        }
    }

private:
    void step(const pair_routes::Network& network, const RootedTree& tree, std::int32_t edge_of, std::int32_t near,
              std::int32_t far) {
        const SharedCostEdge& edge = network.edges[tree.edge[edge_of]];
        length[far] = length[near] + edge.length;
        passage[far] = passage[near] + edge.passage;
    }
};

}  // namespace

SitingTable::SitingTable(const TwoLevelProblem& problem, const pair_routes::Network& network,
                         const std::vector<Feeder>& feeders, const std::vector<EdgeId>& tree)
    : problem_(problem), network_(network), feeders_(feeders) {
    const RootedTree laid = rooted(network_, tree, problem_.source);
    measure_attachments(laid);
    measure_service(laid);
}

SitingTable::SitingTable(const TwoLevelProblem& problem, const pair_routes::Network& network,
                         const std::vector<Feeder>& feeders, const std::vector<EdgeId>& tree,
                         const std::vector<std::int32_t>& sites)
    : problem_(problem),
      network_(network),
      feeders_(feeders),
      candidates_(sites),
      reach_(static_cast<std::size_t>(network.vertex_count)) {
    for (const std::int32_t s : sites)
        reach_[problem.sites[s].at].hangs_at = problem.sites[s].at;
    measure_service(rooted(network_, tree, problem_.source));
}

void SitingTable::measure_attachments(const RootedTree& laid) {
    reach_.assign(network_.vertex_count, {});
    came_by_.assign(network_.vertex_count, -1);
    std::vector<Cost> label(network_.vertex_count, kLargestCost);
    LabelHeap<Cost> queue(network_.vertex_count);
    for (const VertexId v : laid.vertex) {
        label[v] = 0;
        reach_[v].hangs_at = v;
        queue.push_or_lower(v, 0);
    }
    const pair_routes::Charge typical = feeders_.empty() ? pair_routes::Charge{} : feeders_.front().charge;
    while (!queue.empty()) {
        const VertexId here = queue.pop();
        for (const Step& step : network_.steps.from(here)) {
            const SharedCostEdge& edge = network_.edges[step.edge];
            const Cost along = label[here] + edge.opening + typical.on(edge);
            if (along >= label[step.to]) continue;
            label[step.to] = along;
            came_by_[step.to] = step.edge;
            const Reach& from = reach_[here];
            reach_[step.to] = {from.opening + edge.opening, from.length + edge.length, from.passage + edge.passage,
                               from.hangs_at};
            queue.push_or_lower(step.to, along);
        }
    }
    for (std::size_t s = 0; s < problem_.sites.size(); ++s) {
        if (reach_[problem_.sites[s].at].hangs_at >= 0) candidates_.push_back(static_cast<std::int32_t>(s));
    }
}

void SitingTable::measure_service(const RootedTree& laid) {
    const std::size_t site_count = problem_.sites.size();
    rank_feeders();
    feeder_.assign(site_count, {});
    service_.assign(site_count, {});
    for (const std::int32_t s : candidates_) {
        const Reach& reach = reach_[problem_.sites[s].at];
        const TreeDistances from(network_, laid, laid.place[reach.hangs_at]);
        price_feeders(s, reach.length + from.length[0], reach.passage + from.passage[0]);
        for (const TwoLevelDemand& demand : problem_.demands) {
            const std::int32_t p = laid.place[demand.at];
            service_[s].push_back(
                service_charge(demand).on(reach.length + from.length[p], reach.passage + from.passage[p]));
        }
    }
    const TreeDistances from_source(network_, laid, 0);
    for (const TwoLevelDemand& demand : problem_.demands) {
        const std::int32_t p = laid.place[demand.at];
        direct_.push_back(demand.direct
                              ? demand.direct->fixed +
                                    direct_charge(*demand.direct).on(from_source.length[p], from_source.passage[p])
                              : kLargestCost);
    }
}

void SitingTable::price_feeders(std::int32_t site, Length length, Cost passage) {
    std::vector<Cost>& cheapest = feeder_[site];
    cheapest.resize(feeders_.size());
    Cost least = kLargestCost;
    for (std::size_t f = feeders_.size(); f-- > 0;) {
        least = std::min(least, feeder_cost(feeders_[f], problem_.sites[site], length, passage));
        cheapest[f] = least;
    }
}

void SitingTable::rank_feeders() {
    if (feeders_.empty()) return;
    const std::int64_t most = std::min(feeders_.back().serves, kMostUnitsListed);
    std::uint32_t smallest = 0;
    for (std::int64_t units = 0; units <= most; ++units) {
        while (feeders_[smallest].serves < units)
            ++smallest;
        smallest_.push_back(smallest);
    }
}

std::optional<Cost> SitingTable::cost_of_unlisted(std::int32_t site, std::int64_t units) const {
    const auto first = std::partition_point(feeders_.begin(), feeders_.end(),
                                            [units](const Feeder& feeder) { return feeder.serves < units; });
    if (first == feeders_.end()) return std::nullopt;
    return feeder_[site][static_cast<std::size_t>(first - feeders_.begin())];
}

Cost SitingTable::least_per_unit(std::int32_t site) const {
    const std::vector<Cost>& costs = feeder_[site];
    Cost least = kLargestCost;
    for (std::size_t f = 1; f < costs.size(); ++f) {
        const std::int64_t more = feeders_[f].serves - feeders_.front().serves;
        if (more > 0) least = std::min(least, (costs[f] - costs.front()) / more);
    }
    return least == kLargestCost ? 0 : least;
}

WideCost SitingTable::least_when_open(std::int32_t site) const {
    const Site& s = problem_.sites[site];
    return static_cast<WideCost>(feeder_cost_to(site, 0).value_or(0)) + s.cost + reach_[s.at].opening;
}

/// Every feeder counts as the smallest, or on a line below all sizes.
std::vector<Cost> SitingTable::least_with_one_more(const std::vector<std::int32_t>& open) const {
    std::vector<Cost> bounds = least_with_one_more(open, false);
    const std::vector<Cost> on_lines = least_with_one_more(open, true);
    for (std::size_t c = 0; c < bounds.size(); ++c)
        bounds[c] = std::max(bounds[c], on_lines[c]);
    return bounds;
}

std::vector<Cost> SitingTable::least_with_one_more(const std::vector<std::int32_t>& open, bool on_lines) const {
    const auto smallest = feeders_.empty() ? 0 : feeders_.front().serves;
    const auto when_open = [&](std::int32_t s) {
        return least_when_open(s) - (on_lines ? static_cast<WideCost>(least_per_unit(s)) * smallest : 0);
    };
    std::vector<Cost> least = direct_;
    WideCost of_open = 0;
    const auto lower = [&](std::vector<Cost>& costs, std::int32_t s) {
        const Cost per_unit = on_lines ? least_per_unit(s) : 0;
        for (std::size_t d = 0; d < costs.size(); ++d)
            costs[d] = std::min(costs[d], service_[s][d] + per_unit * problem_.demands[d].units);
    };
    for (const std::int32_t s : open) {
        of_open += when_open(s);
        lower(least, s);
    }
    std::vector<Cost> bounds;
    std::vector<Cost> with_one;
    for (const std::int32_t s : candidates_) {
        WideCost sum = of_open + when_open(s);
        with_one = least;
        lower(with_one, s);
        for (const Cost c : with_one)
            sum += c;
        bounds.push_back(saturated(sum));
    }
    return bounds;
}

std::vector<EdgeId> SitingTable::attachment(std::int32_t site) const {
    std::vector<EdgeId> edges;
    for (VertexId v = problem_.sites[site].at; came_by_[v] >= 0;) {
        const SharedCostEdge& edge = network_.edges[came_by_[v]];
        edges.push_back(came_by_[v]);
        v = edge.tail == v ? edge.head : edge.tail;
    }
    return edges;
}

namespace {

std::vector<std::int32_t> with(std::vector<std::int32_t> open, std::int32_t site) {
    open.insert(std::lower_bound(open.begin(), open.end(), site), site);
    return open;
}

std::vector<std::int32_t> without(std::vector<std::int32_t> open, std::size_t k) {
    open.erase(open.begin() + static_cast<std::ptrdiff_t>(k));
    return open;
}

/// Candidates that are not open, the most promising first, each with what an assignment with it costs at least.
std::vector<std::pair<Cost, std::int32_t>> promising(const SitingTable& table, const std::vector<std::int32_t>& open) {
    const std::vector<Cost> least = table.least_with_one_more(open);
    std::vector<std::pair<Cost, std::int32_t>> order;
    for (std::size_t c = 0; c < least.size(); ++c) {
        const std::int32_t site = table.candidates()[c];
        if (!std::binary_search(open.begin(), open.end(), site)) order.emplace_back(least[c], site);
    }
    std::sort(order.begin(), order.end());
    return order;
}

/// The best of adding one more site to `open`, where it costs less than the limit.
std::optional<Siting> best_addition(const SitingTable& table, const std::vector<std::int32_t>& open, Cost limit,
                                    const pair_routes::StopRule& stop) {
    std::optional<Siting> best;
    for (const auto& [least, site] : promising(table, open)) {
        if (least >= limit || (best && stop.reached())) break;
        auto siting = table.assign(with(open, site));
        if (!siting || siting->cost >= limit) continue;
        limit = siting->cost;
        best = std::move(siting);
    }
    return best;
}

}  // namespace

std::optional<Siting> best_siting(const SitingTable& table, std::int32_t count, std::vector<std::int32_t> start,
                                  const pair_routes::StopRule& stop) {
    const auto wanted = static_cast<std::size_t>(count);
    while (start.size() > wanted)
        start.pop_back();
    std::optional<Siting> best = table.assign(start);
    while (start.size() < wanted) {
        best = best_addition(table, start, kLargestCost, stop);
        if (best) {
            start = best->open;
            continue;
        }
        const auto& all = table.candidates();  // Too few to carry everything yet: take the first one not open.
        const auto next = std::find_if(
            all.begin(), all.end(), [&](std::int32_t s) { return !std::binary_search(start.begin(), start.end(), s); });
        if (next == all.end()) return std::nullopt;
        start = with(start, *next);
        best = table.assign(start);
    }
    for (bool changed = true; changed && !stop.reached();) {
        changed = false;
        for (std::size_t k = 0; k < start.size(); ++k) {
            auto swapped = best_addition(table, without(start, k), best ? best->cost : kLargestCost, stop);
            if (!swapped) continue;
            best = std::move(swapped);
            start = best->open;
            changed = true;
        }
    }
    return best;
}

std::vector<Siting> best_exchanges(const SitingTable& table, const std::vector<std::int32_t>& open, std::size_t k,
                                   std::size_t most) {
    const std::vector<std::int32_t> others = without(open, k);
    const auto cheaper = [](const Siting& a, const Siting& b) { return a.cost < b.cost; };
    std::vector<Siting> best;
    for (const auto& [least, site] : promising(table, others)) {
        if (best.size() == most && least >= best.back().cost) break;
        if (site == open[k]) continue;
        auto siting = table.assign(with(others, site));
        if (!siting) continue;
        best.insert(std::upper_bound(best.begin(), best.end(), *siting, cheaper), *siting);
        if (best.size() > most) best.pop_back();
    }
    return best;
}

}  // namespace spadework::graph::two_level
