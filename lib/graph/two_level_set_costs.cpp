#include "graph/two_level_set_costs.hpp"

#include <algorithm>
#include <numeric>

#include "graph/label_heap.hpp"

namespace spadework::graph::two_level {

using pair_routes::Charge;
using pair_routes::Network;

namespace {

using Labels = std::vector<Cost>;

constexpr std::int32_t kNoArc = -1;

enum class Towards { away, back };  ///< Whether the arcs walked are paid, or their opposites.

/// A queue, and what is as near as the vertex taken from it last.
struct Waiting {
    explicit Waiting(VertexId vertex_count) : queue(vertex_count) {}

    LabelHeap<Cost> queue;
    std::vector<VertexId> as_near;
};

/// Lowers the labels to the shortest from any of them, where a step pays the charge and an arc's price. `by` gets the
/// arc paid to reach each vertex. What a step reaches for nothing never waits in the queue.
void spread(const Network& network, Labels& labels, Charge charge, const std::vector<Cost>& prices, Towards towards,
            std::vector<std::int32_t>& by, Waiting& waiting) {
    by.assign(network.vertex_count, kNoArc);
    for (VertexId v = 0; v < network.vertex_count; ++v) {
        if (labels[v] < kLargestCost) waiting.queue.push_or_lower(v, labels[v]);
    }
    while (!waiting.queue.empty()) {
        waiting.as_near.assign(1, waiting.queue.pop());
        while (!waiting.as_near.empty()) {
            const VertexId here = waiting.as_near.back();
            waiting.as_near.pop_back();
            for (const Step& step : network.steps.from(here)) {
                const SharedCostEdge& edge = network.edges[step.edge];
                const bool against = (edge.head == here) != (towards == Towards::back);
                const std::int32_t arc = 2 * step.edge + (against ? 1 : 0);
                const Cost along = labels[here] + charge.on(edge) + prices[arc];
                if (along >= labels[step.to]) continue;
                labels[step.to] = along;
                by[step.to] = arc;
                if (along == labels[here] && !waiting.queue.holds(step.to)) {
                    waiting.as_near.push_back(step.to);
                } else {
                    waiting.queue.push_or_lower(step.to, along);
                }
            }
        }
    }
}

VertexId tail_of(const Network& network, std::int32_t arc) {
    const SharedCostEdge& edge = network.edges[arc / 2];
    return arc % 2 == 0 ? edge.tail : edge.head;
}

VertexId head_of(const Network& network, std::int32_t arc) {
    const SharedCostEdge& edge = network.edges[arc / 2];
    return arc % 2 == 0 ? edge.head : edge.tail;
}

Labels single(VertexId count, VertexId at) {
    Labels labels(count, kLargestCost);
    labels[at] = 0;
    return labels;
}

}  // namespace

FeederTable::FeederTable(const TwoLevelProblem& problem, const Relaxation& relaxation) {
    std::int64_t all = 0;
    std::int64_t step = 0;
    for (const TwoLevelDemand& d : problem.demands) {
        all += d.units;
        step = std::gcd(step, d.units);
    }
    units_a_step_ = std::max<std::int64_t>(step, 1);
    steps_ = all / units_a_step_;
    const std::vector<Feeder> feeders = usable_feeders(problem);
    for (const Site& site : problem.sites) {
        if (relaxation.source_length[site.at] == kLargestCost) continue;
        std::vector<Cost> costs(static_cast<std::size_t>(steps_) + 1, kLargestCost);
        for (std::int64_t s = 0; s <= steps_; ++s) {
            const Feeder* feeder = cheapest_feeder(feeders, site, s * units_a_step_, relaxation.source_length[site.at],
                                                   relaxation.source_passage[site.at]);
            if (feeder == nullptr) break;
            const Cost cost = site.cost + feeder_cost(*feeder, site, relaxation.source_length[site.at],
                                                      relaxation.source_passage[site.at]);
            costs[s] = cost * relaxation.parts;
        }
        cost_.push_back(std::move(costs));
    }
}

FeederTable::Split FeederTable::cheapest_split(std::span<const std::int32_t> set, std::span<const Cost> asks,
                                               std::span<const Range> ranges, bool all_units) const {
    const auto width = static_cast<std::size_t>(steps_) + 1;
    std::vector<std::vector<Cost>> least(set.size() + 1, std::vector<Cost>(width, kLargestCost));
    std::vector<std::vector<std::int64_t>> taken(set.size(), std::vector<std::int64_t>(width, 0));
    least[0][0] = 0;
    for (std::size_t k = 0; k < set.size(); ++k) {
        const std::vector<Cost>& costs = cost_[set[k]];
        const Cost ask = asks[k] * units_a_step_;
        for (std::size_t before = 0; before < width; ++before) {
            if (least[k][before] == kLargestCost) continue;
            const auto most = std::min(width - 1 - before, static_cast<std::size_t>(ranges[k].most));
            for (auto here = static_cast<std::size_t>(ranges[k].least); here <= most; ++here) {
                if (costs[here] == kLargestCost) break;
                const Cost sum = least[k][before] + costs[here] - ask * static_cast<Cost>(here);
                if (sum >= least[k + 1][before + here]) continue;
                least[k + 1][before + here] = sum;
                taken[k][before + here] = static_cast<std::int64_t>(here);
            }
        }
    }
    const std::vector<Cost>& last = least.back();
    auto total = all_units ? last.end() - 1 : std::min_element(last.begin(), last.end());
    Split split{*total, std::vector<std::int64_t>(set.size(), 0)};
    if (split.cost == kLargestCost) return split;
    for (std::size_t k = set.size(), at = static_cast<std::size_t>(total - last.begin()); k-- > 0;) {
        split.steps[k] = taken[k][at];
        at -= static_cast<std::size_t>(taken[k][at]);
    }
    return split;
}

ServiceTable::ServiceTable(const Relaxation& even, const Network& network)
    : even_(even),
      network_(network),
      by_site_(even.sites.size(), std::vector<Cost>(even.demands.size(), kUnserved)),
      direct_(even.demands.size(), kUnserved),
      ways_(even.demands.size()) {}

void ServiceTable::measure(const ArcPrices& prices, WorkerTeam& team) {
    std::vector<Waiting> waiting(team.size(), Waiting(network_.vertex_count));
    team.run(even_.demands.size(), 1, [&](std::size_t d, std::size_t worker) {
        const RelaxedDemand& demand = even_.demands[d];
        Waiting& queue = waiting[worker];
        Ways& ways = ways_[d];
        Labels to_fork = single(network_.vertex_count, even_.source);
        spread(network_, to_fork, {}, prices[d], Towards::away, ways.to_fork, queue);
        Labels fork = single(network_.vertex_count, demand.at);
        spread(network_, fork, demand.service, prices[d], Towards::back, ways.inwards, queue);
        if (demand.may_be_direct && fork[even_.source] < kLargestCost) {
            direct_[d] = fork[even_.source] + demand.direct_fixed;
        }
        for (std::size_t v = 0; v < fork.size(); ++v) {
            const bool reached = fork[v] < kLargestCost && to_fork[v] < kLargestCost;
            fork[v] = reached ? fork[v] + to_fork[v] : kLargestCost;
        }
        spread(network_, fork, demand.service, prices[d], Towards::away, ways.outwards, queue);
        for (std::size_t s = 0; s < even_.sites.size(); ++s)
            by_site_[s][d] = std::min(fork[even_.sites[s].at], kUnserved);
    });
}

std::vector<std::uint32_t> ServiceTable::way(std::size_t demand, std::int32_t site) const {
    const Ways& ways = ways_[demand];
    std::vector<std::uint32_t> arcs;
    VertexId fork = even_.source;
    if (site >= 0) {
        fork = even_.sites[static_cast<std::size_t>(site)].at;
        for (std::int32_t arc = ways.outwards[fork]; arc != kNoArc; arc = ways.outwards[fork]) {
            arcs.push_back(static_cast<std::uint32_t>(arc));
            fork = tail_of(network_, arc);
        }
    }
    for (VertexId v = fork; ways.inwards[v] != kNoArc; v = head_of(network_, ways.inwards[v]))
        arcs.push_back(static_cast<std::uint32_t>(ways.inwards[v]));
    for (VertexId v = fork; site >= 0 && ways.to_fork[v] != kNoArc; v = tail_of(network_, ways.to_fork[v]))
        arcs.push_back(static_cast<std::uint32_t>(ways.to_fork[v]));
    return arcs;
}

}  // namespace spadework::graph::two_level
