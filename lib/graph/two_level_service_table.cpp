#include "graph/two_level_service_table.hpp"

#include <algorithm>

#include "graph/label_heap.hpp"
#include "graph/two_level_trench_prices.hpp"

namespace spadework::graph::two_level {

using pair_routes::Charge;
using pair_routes::Network;

namespace {

constexpr std::int32_t kNoArc = -1;

enum class Towards { away, back };  ///< Whether the arcs walked are paid, or their opposites.

using Labels = std::vector<Cost>;

VertexId tail_of(const Network& network, std::int32_t arc) {
    const SharedCostEdge& edge = network.edges[arc / 2];
    return arc % 2 == 0 ? edge.tail : edge.head;
}

VertexId head_of(const Network& network, std::int32_t arc) {
    const SharedCostEdge& edge = network.edges[arc / 2];
    return arc % 2 == 0 ? edge.head : edge.tail;
}

}  // namespace

/// Scratch space of one worker, and the network as it reads it.
class ServiceTable::Spread {
public:
    Spread(const Network& network, VertexId source)
        : to_fork(network, source),
          first_(static_cast<std::size_t>(network.vertex_count) + 1, 0),
          queue_(first_.size()) {
        for (VertexId v = 0; v < network.vertex_count; ++v) {
            for (const Step& step : network.steps.from(v))
                hops_.push_back({step.to, 2 * step.edge + (network.edges[step.edge].head == v ? 1 : 0)});
            first_[static_cast<std::size_t>(v) + 1] = static_cast<std::uint32_t>(hops_.size());
        }
        charged.resize(2 * network.edges.size());
        done_.resize(first_.size() - 1);
        fork = Labels(first_.size() - 1);
    }

    TrenchPrices<Cost, Cost> to_fork;  ///< Prices from the source.
    Labels fork;                ///< By vertex: prices and service charge to the demand, then with a fork anywhere.
    std::vector<Cost> charged;  ///< By arc: price and service charge.

    static void begin(Labels& labels, VertexId at) {
        std::fill(labels.begin(), labels.end(), kLargestCost);
        labels[at] = 0;
    }

    /// Lowers the labels to the shortest from any of them, where a step pays for an arc. `by` gets the arc paid to
    /// reach each vertex. `order` is that of the labels found last time, which are much like these: where it is still
    /// the order of the labels, one step from each vertex in turn is enough, and nothing has to wait in a queue.
    template <Towards towards>
    void lower(Labels& labels, const std::vector<Cost>& arc_costs, std::vector<std::int32_t>& by,
               std::vector<VertexId>& order) {
        by.assign(labels.size(), kNoArc);
        if (order.empty()) {
            std::fill(done_.begin(), done_.end(), char{1});
            for (std::size_t v = 0; v < labels.size(); ++v) {
                if (labels[v] < kLargestCost) queue_.push_or_lower(static_cast<VertexId>(v), labels[v]);
            }
            lower_waiting<towards>(labels, arc_costs, by, &order);
            return;
        }
        std::fill(done_.begin(), done_.end(), char{0});
        for (const VertexId v : order) {
            done_[v] = 1;
            if (labels[v] < kLargestCost) step_from<towards>(v, labels, arc_costs, by);
        }
        lower_waiting<towards>(labels, arc_costs, by, nullptr);
        sort_again(order, labels);
    }

private:
    struct Hop {
        VertexId to;
        std::int32_t arc;  ///< From here to there; its opposite differs in the last bit.
    };

    /// Steps on from all that wait, the smallest label first, and notes the order. What a step reaches for nothing
    /// never waits.
    template <Towards towards>
    void lower_waiting(Labels& labels, const std::vector<Cost>& arc_costs, std::vector<std::int32_t>& by,
                       std::vector<VertexId>* order) {
        while (!as_near_.empty() || !queue_.empty()) {
            if (as_near_.empty()) as_near_.push_back(queue_.pop());
            const VertexId here = as_near_.back();
            as_near_.pop_back();
            if (order != nullptr) order->push_back(here);
            step_from<towards>(here, labels, arc_costs, by);
        }
    }

    /// Lowers the labels of neighbours; those that were stepped from before have to wait for another turn.
    template <Towards towards>
    void step_from(VertexId here, Labels& labels, const std::vector<Cost>& arc_costs, std::vector<std::int32_t>& by) {
        const Cost label = labels[here];
        for (std::uint32_t h = first_[here]; h < first_[here + 1]; ++h) {
            const auto [to, out] = hops_[h];
            const std::int32_t arc = towards == Towards::away ? out : out ^ 1;
            const Cost along = label + arc_costs[arc];
            if (along >= labels[to]) continue;
            labels[to] = along;
            by[to] = arc;
            if (done_[to] == 0) continue;
            if (along == label && !queue_.holds(to)) {
                as_near_.push_back(to);
            } else {
                queue_.push_or_lower(to, along);
            }
        }
    }

    /// By insertion, as little is out of order.
    static void sort_again(std::vector<VertexId>& order, const Labels& labels) {
        for (std::size_t k = 1; k < order.size(); ++k) {
            const VertexId v = order[k];
            std::size_t at = k;
            for (; at > 0 && labels[order[at - 1]] > labels[v]; --at)
                order[at] = order[at - 1];
            order[at] = v;
        }
    }

    std::vector<std::uint32_t> first_;  ///< By vertex: its first hop.
    std::vector<Hop> hops_;
    LabelHeap<Cost> queue_;
    std::vector<VertexId> as_near_;  ///< What is as near as the vertex taken from the queue last.
    std::vector<char> done_;         ///< By vertex: whether it had its turn.
};

ServiceTable::ServiceTable(const Relaxation& even, const Network& network)
    : even_(even),
      network_(network),
      by_site_(even.sites.size(), std::vector<Cost>(even.demands.size(), kUnserved)),
      direct_(even.demands.size(), kUnserved),
      ways_(even.demands.size()),
      orders_(even.demands.size()) {}

ServiceTable::~ServiceTable() = default;

void ServiceTable::measure(const ArcPrices& prices, WorkerTeam& team) {
    while (spreads_.size() < team.size())
        spreads_.push_back(std::make_unique<Spread>(network_, even_.source));
    team.run(even_.demands.size(), 1,
             [&](std::size_t d, std::size_t worker) { measure(d, prices[d], *spreads_[worker]); });
}

void ServiceTable::measure(std::size_t d, const std::vector<Cost>& prices, Spread& spread) {
    const RelaxedDemand& demand = even_.demands[d];
    Ways& ways = ways_[d];
    ways.to_fork.resize(spread.fork.size());
    Orders& orders = orders_[d];
    for (std::size_t a = 0; a < prices.size(); ++a)
        spread.charged[a] = prices[a] + demand.service.on(network_.edges[a / 2]);
    spread.to_fork.measure(prices.data());
    for (std::size_t v = 0; v < spread.fork.size(); ++v) {
        const auto arc = spread.to_fork.last_arc(static_cast<VertexId>(v));
        ways.to_fork[v] = arc ? static_cast<std::int32_t>(*arc) : kNoArc;
    }
    Spread::begin(spread.fork, demand.at);
    spread.lower<Towards::back>(spread.fork, spread.charged, ways.inwards, orders.inwards);
    if (demand.may_be_direct && spread.fork[even_.source] < kLargestCost) {
        direct_[d] = spread.fork[even_.source] + demand.direct_fixed;
    }
    for (std::size_t v = 0; v < spread.fork.size(); ++v) {
        const Cost to_fork = spread.to_fork.label(static_cast<VertexId>(v));
        const bool reached = spread.fork[v] < kLargestCost && to_fork < kLargestCost;
        spread.fork[v] = reached ? spread.fork[v] + to_fork : kLargestCost;
    }
    spread.lower<Towards::away>(spread.fork, spread.charged, ways.outwards, orders.outwards);
    for (std::size_t s = 0; s < even_.sites.size(); ++s)
        by_site_[s][d] = std::min(spread.fork[even_.sites[s].at], kUnserved);
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
