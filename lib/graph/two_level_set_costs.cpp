#include "graph/two_level_set_costs.hpp"

#include <algorithm>
#include <numeric>

#include "graph/label_heap.hpp"

namespace spadework::graph::two_level {

using pair_routes::Charge;
using pair_routes::Network;

FeederTable::FeederTable(const TwoLevelProblem& problem, const Network& network, const Relaxation& relaxation)
    : problem_(problem), network_(network), parts_(relaxation.parts), feeders_(usable_feeders(problem)) {
    list_kinds();
    std::int64_t all = 0;
    std::int64_t step = 0;
    for (const TwoLevelDemand& d : problem.demands) {
        all += d.units;
        step = std::gcd(step, d.units);
    }
    units_a_step_ = std::max<std::int64_t>(step, 1);
    steps_ = all / units_a_step_;
    for (const Site& site : problem.sites) {
        const Length length = relaxation.source_length[site.at];
        if (length == kLargestCost) continue;
        at_.push_back(site.at);
        std::vector<Cost>& beside = beside_way_.emplace_back();
        for (const Feeder& f : feeders_)
            beside.push_back((site.cost + f.fixed + feeder_extra(site, f.size)) * parts_);
        const Cost passage = relaxation.source_passage[site.at];
        bare_.push_back(costs_by_steps(at_.size() - 1,
                                       [&](std::size_t f) { return feeders_[f].charge.on(length, passage) * parts_; }));
    }
    const auto most = static_cast<std::size_t>(std::max(problem.most_sites, 0));
    cost_.assign(std::min(most, at_.size()) + 1, bare_);
    ways_.assign(cost_.size(), std::vector<Ways>(kinds_.size()));
}

void FeederTable::list_kinds() {
    for (const Feeder& f : feeders_) {
        const auto alike = [&f](const Charge& kind) {
            return kind.weight == f.charge.weight && kind.multiplicity == f.charge.multiplicity;
        };
        const auto known = std::ranges::find_if(kinds_, alike);
        kind_of_.push_back(static_cast<std::size_t>(known - kinds_.begin()));
        if (known == kinds_.end()) kinds_.push_back(f.charge);
    }
}

/// What the site costs by the steps it serves, where `way_cost` tells what the way of a feeder costs.
template <class WayCost>
std::vector<Cost> FeederTable::costs_by_steps(std::size_t site, WayCost way_cost) const {
    std::vector<Cost> costs(static_cast<std::size_t>(steps_) + 1);
    Cost least = kLargestCost;  // Of the feeders looked at, the largest first.
    std::int64_t next = steps_;
    for (std::size_t f = feeders_.size(); f-- > 0;) {
        for (; next >= 0 && next * units_a_step_ > feeders_[f].serves; --next)
            costs[next] = least;
        least = std::min(least, beside_way_[site][f] + way_cost(f));
    }
    for (; next >= 0; --next)
        costs[next] = least;
    return costs;
}

FeederTable::Ways FeederTable::ways_of(Charge charge, const std::vector<Cost>& unspent, Cost count) const {
    const auto vertices = static_cast<std::size_t>(network_.vertex_count);
    Ways ways{std::vector<Cost>(vertices, kLargestCost), std::vector<EdgeId>(vertices, -1)};
    LabelHeap<Cost> queue(vertices);
    ways.label[problem_.source] = 0;
    queue.push_or_lower(problem_.source, 0);
    while (!queue.empty()) {
        const VertexId here = queue.pop();
        for (const Step& step : network_.steps.from(here)) {
            const Cost own = charge.on(network_.edges[step.edge]) * parts_ * count;
            const Cost along = ways.label[here] + own + unspent[step.edge];
            if (along >= ways.label[step.to]) continue;
            ways.label[step.to] = along;
            ways.last[step.to] = step.edge;
            queue.push_or_lower(step.to, along);
        }
    }
    return ways;
}

void FeederTable::pay_dues(const std::vector<Cost>& unspent, const std::vector<char>& counts, WorkerTeam& team) {
    for (std::size_t count = 1; count < cost_.size(); ++count) {
        ways_[count].assign(kinds_.size(), {});
        cost_[count] = bare_;
        if (counts[count] == 0) continue;
        team.run(kinds_.size(), 1, [&](std::size_t kind, std::size_t) {
            ways_[count][kind] = ways_of(kinds_[kind], unspent, static_cast<Cost>(count));
        });
        for (std::size_t site = 0; site < at_.size(); ++site) {
            cost_[count][site] = costs_by_steps(site, [&](std::size_t f) {
                return ways_[count][kind_of_[f]].label[at_[site]] / static_cast<Cost>(count);
            });
        }
    }
}

std::vector<EdgeId> FeederTable::way(std::size_t count, std::size_t site, std::int64_t steps) const {
    std::vector<EdgeId> edges;
    const Ways* cheapest = nullptr;
    Cost least = kLargestCost;
    for (std::size_t f = 0; f < feeders_.size(); ++f) {
        const Ways& ways = ways_[count][kind_of_[f]];
        if (ways.label.empty() || feeders_[f].serves < steps * units_a_step_) continue;
        const Cost cost = beside_way_[site][f] + ways.label[at_[site]] / static_cast<Cost>(count);
        if (cost >= least) continue;
        least = cost;
        cheapest = &ways;
    }
    if (cheapest == nullptr) return edges;
    for (VertexId v = at_[site]; cheapest->last[v] >= 0;) {
        const SharedCostEdge& edge = network_.edges[cheapest->last[v]];
        edges.push_back(cheapest->last[v]);
        v = edge.tail == v ? edge.head : edge.tail;
    }
    return edges;
}

/// The steps that cost least at each site by itself; they count where together they are not too many.
FeederTable::Split FeederTable::each_by_itself(std::span<const std::int32_t> set, std::span<const Cost> asks,
                                               std::span<const Range> ranges) const {
    Split split{0, std::vector<std::int64_t>(set.size(), 0)};
    for (std::size_t k = 0; k < set.size(); ++k) {
        const std::vector<Cost>& costs = cost_[set.size()][set[k]];
        const Cost ask = asks[k] * units_a_step_;
        Cost least = kLargestCost;
        for (std::int64_t here = ranges[k].least; here <= ranges[k].most && costs[here] < kLargestCost; ++here) {
            const Cost cost = costs[here] - ask * here;
            if (cost >= least) continue;
            least = cost;
            split.steps[k] = here;
        }
        if (least == kLargestCost) return {kLargestCost, std::vector<std::int64_t>(set.size(), 0)};
        split.cost += least;
    }
    return split;
}

FeederTable::Split FeederTable::cheapest_split(std::span<const std::int32_t> set, std::span<const Cost> asks,
                                               std::span<const Range> ranges, bool all_units) const {
    if (!all_units || set.empty()) {
        Split split = each_by_itself(set, asks, ranges);
        const std::int64_t sum = std::accumulate(split.steps.begin(), split.steps.end(), std::int64_t{0});
        const bool fits = all_units ? sum == steps_ : sum <= steps_;
        if (fits || (split.cost == kLargestCost && !set.empty())) return split;
    }
    return shared_out(set, asks, ranges, all_units);
}

/// By tables of the least cost of so many steps at the first sites of the set, one site after another.
FeederTable::Split FeederTable::shared_out(std::span<const std::int32_t> set, std::span<const Cost> asks,
                                           std::span<const Range> ranges, bool all_units) const {
    const std::size_t width = static_cast<std::size_t>(steps_) + 1;
    thread_local std::vector<Cost> least;          // By position, by steps; before the first site nothing is served.
    thread_local std::vector<std::int32_t> taken;  // The same: steps of the last site among them.
    least.assign((set.size() + 1) * width, kLargestCost);
    taken.assign((set.size() + 1) * width, 0);
    least[0] = 0;
    for (std::size_t k = 0; k < set.size(); ++k) {
        const std::vector<Cost>& costs = cost_[set.size()][set[k]];
        const Cost ask = asks[k] * units_a_step_;
        const Cost* before = least.data() + k * width;
        Cost* after = least.data() + (k + 1) * width;
        std::int32_t* steps = taken.data() + (k + 1) * width;
        const std::size_t first_total = all_units && k + 1 == set.size() ? width - 1 : 0;
        for (auto here = static_cast<std::size_t>(ranges[k].least);
             here <= static_cast<std::size_t>(ranges[k].most) && costs[here] < kLargestCost; ++here) {
            const Cost own = costs[here] - ask * static_cast<Cost>(here);
            for (std::size_t total = std::max(here, first_total); total < width; ++total) {
                const Cost so_far = before[total - here];
                if (so_far == kLargestCost || so_far + own >= after[total]) continue;
                after[total] = so_far + own;
                steps[total] = static_cast<std::int32_t>(here);
            }
        }
    }
    const Cost* last = least.data() + set.size() * width;
    const Cost* total = all_units ? last + width - 1 : std::min_element(last, last + width);
    Split split{*total, std::vector<std::int64_t>(set.size(), 0)};
    if (split.cost == kLargestCost) return split;
    for (std::size_t k = set.size(), at = static_cast<std::size_t>(total - last); k-- > 0;) {
        split.steps[k] = taken[(k + 1) * width + at];
        at -= static_cast<std::size_t>(split.steps[k]);
    }
    return split;
}

}  // namespace spadework::graph::two_level
