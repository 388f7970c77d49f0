#include "graph/two_level_proof.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "graph/label_heap.hpp"

namespace spadework::graph::two_level {

using pair_routes::Charge;
using pair_routes::Network;

namespace {

using Labels = std::vector<Cost>;
using IntegerPrices = std::vector<std::vector<Cost>>;

/// Prices as whole parts, demands in order paid out of each purse until it is empty.
IntegerPrices whole_prices(const Relaxation& relaxation, const PriceTable& prices, Cost toll) {
    const std::size_t arcs = 2 * relaxation.opening.size();
    IntegerPrices whole(prices.size(), std::vector<Cost>(arcs + relaxation.sites.size(), 0));
    for (std::size_t p = 0; p < arcs + relaxation.sites.size(); ++p) {
        Cost left = p < arcs ? relaxation.opening[p / 2] : add(relaxation.sites[p - arcs].opening, toll);
        for (std::size_t d = 0; d < prices.size(); ++d) {
            const auto wish = static_cast<double>(prices[d][p]);
            if (!(wish >= 1.0)) continue;
            const Cost price = wish >= static_cast<double>(left) ? left : std::min(left, static_cast<Cost>(wish));
            whole[d][p] = price;
            left -= price;
        }
    }
    return whole;
}

/// Edges that some plan might leave out of its tree: those not in the network's own tree, taken in the given order.
std::vector<EdgeId> possible_chords(const Network& network, const std::vector<EdgeId>& order) {
    std::vector<VertexId> group(network.vertex_count);
    std::iota(group.begin(), group.end(), 0);
    const auto find = [&](VertexId v) {
        while (group[v] != v)
            v = group[v] = group[group[v]];
        return v;
    };
    std::vector<EdgeId> chords;
    for (const EdgeId e : order) {
        if (network.edges[e].tail == network.edges[e].head) continue;
        const VertexId a = find(network.edges[e].tail);
        const VertexId b = find(network.edges[e].head);
        if (a == b) {
            chords.push_back(e);
        } else {
            group[a] = b;
        }
    }
    return chords;
}

/// One demand's distances under its prices.
class DemandProof {
public:
    DemandProof(const Relaxation& relaxation, const Network& network) : relaxation_(relaxation), network_(network) {}

    Cost in_tree = kLargestCost;  ///< What the demand is charged when its cable keeps to the tree.
    std::vector<Cost> through;    ///< For each edge, when it is the last chord on the cable.

    void prove(const RelaxedDemand& demand, const std::vector<Cost>& prices) {
        through.assign(network_.edges.size(), kLargestCost);
        in_tree = kLargestCost;
        const Labels to_fork = spread(single(relaxation_.source, 0), {}, &prices, false);
        prove_served(demand, prices, to_fork);
        if (demand.may_be_direct) prove_direct(demand, prices, to_fork);
    }

private:
    [[nodiscard]] Labels single(VertexId v, Cost label) const {
        Labels labels(network_.vertex_count, kLargestCost);
        labels[v] = label;
        return labels;
    }

    /// Shortest labels from the given ones, each step paying the charge and, where given, the price of the arc along
    /// the step, or against it when `backwards`.
    [[nodiscard]] Labels spread(Labels labels, Charge charge, const std::vector<Cost>* prices, bool backwards) const {
        LabelHeap<Cost> queue(network_.vertex_count);
        for (VertexId v = 0; v < network_.vertex_count; ++v) {
            if (labels[v] < kLargestCost) queue.push_or_lower(v, labels[v]);
        }
        while (!queue.empty()) {
            const VertexId here = queue.pop();
            for (const Step& step : network_.steps.from(here)) {
                const SharedCostEdge& edge = network_.edges[step.edge];
                Cost along = labels[here] + charge.on(edge);
                if (prices != nullptr) {
                    const bool head_first = (edge.head == here) != backwards;
                    along += (*prices)[2 * static_cast<std::size_t>(step.edge) + (head_first ? 1 : 0)];
                }
                if (along >= labels[step.to]) continue;
                labels[step.to] = along;
                queue.push_or_lower(step.to, along);
            }
        }
        return labels;
    }

    [[nodiscard]] static Labels sums(const Labels& a, const Labels& b) {
        Labels result(a.size(), kLargestCost);
        for (std::size_t v = 0; v < a.size(); ++v) {
            if (a[v] < kLargestCost && b[v] < kLargestCost) result[v] = a[v] + b[v];
        }
        return result;
    }

    [[nodiscard]] Labels site_labels(const RelaxedDemand& demand, const std::vector<Cost>& prices) const {
        Labels labels(network_.vertex_count, kLargestCost);
        for (std::size_t s = 0; s < relaxation_.sites.size(); ++s) {
            const RelaxedSite& site = relaxation_.sites[s];
            const Cost cost = site.per_unit * demand.units + prices[2 * network_.edges.size() + s];
            labels[site.at] = std::min(labels[site.at], cost);
        }
        return labels;
    }

    void prove_served(const RelaxedDemand& demand, const std::vector<Cost>& prices, const Labels& to_fork) {
        const Labels at_sites = site_labels(demand, prices);
        const Labels excursion = spread(at_sites, demand.service, &prices, true);
        const Labels from_fork = spread(single(demand.at, 0), demand.service, &prices, true);
        const Labels fork = sums(to_fork, from_fork);
        for (const Cost way : sums(fork, excursion))
            in_tree = std::min(in_tree, way);
        if (relaxation_.in_trees) return;
        pass_edges(demand.service, spread(at_sites, demand.service, nullptr, false),
                   spread(fork, demand.service, nullptr, false));
    }

    void prove_direct(const RelaxedDemand& demand, const std::vector<Cost>& prices, const Labels& to_fork) {
        const Labels to_demand = spread(single(demand.at, 0), demand.direct, &prices, true);
        if (to_demand[relaxation_.source] < kLargestCost) {
            in_tree = std::min(in_tree, to_demand[relaxation_.source] + demand.direct_fixed);
        }
        if (relaxation_.in_trees) return;
        Labels from_source = spread(single(relaxation_.source, 0), demand.direct, nullptr, false);
        for (Cost& label : from_source) {
            if (label < kLargestCost) label += demand.direct_fixed;
        }
        pass_edges(demand.direct, from_source, spread(sums(to_fork, to_demand), demand.direct, nullptr, false));
    }

    void pass_edges(Charge charge, const Labels& before, const Labels& behind) {
        for (std::size_t e = 0; e < through.size(); ++e) {
            const SharedCostEdge& edge = network_.edges[e];
            const Cost on_edge = charge.on(edge);
            const auto pass = [&](VertexId in, VertexId out) {
                if (before[in] == kLargestCost || behind[out] == kLargestCost) return;
                through[e] = std::min(through[e], before[in] + on_edge + behind[out]);
            };
            pass(edge.tail, edge.head);
            pass(edge.head, edge.tail);
        }
    }

    const Relaxation& relaxation_;
    const Network& network_;
};

/// What to take off each demand's charge so that the chords' opening costs pay for the rest.
class ChordPayments {
public:
    ChordPayments(std::size_t demands, std::size_t chords) : needed_(chords), lowered_(demands, 0) {}

    void need(std::size_t chord, std::size_t demand, Cost payment) { needed_[chord].push_back({demand, payment}); }

    /// Edges by how far what would have to be paid for them as chords passes their opening cost.
    [[nodiscard]] std::vector<EdgeId> dearest_first(const std::vector<Cost>& opening) const {
        std::vector<WideCost> excess(needed_.size());
        std::vector<EdgeId> order(needed_.size());
        for (std::size_t e = 0; e < needed_.size(); ++e) {
            excess[e] = payments(e, 0) - opening[e];
            order[e] = static_cast<EdgeId>(e);
        }
        std::stable_sort(order.begin(), order.end(), [&](EdgeId a, EdgeId b) { return excess[a] > excess[b]; });
        return order;
    }

    /// Lowers every demand that pays for the chord alike, until their payments are no more than `opening`.
    void settle(std::size_t chord, Cost opening) {
        Cost low = 0;
        Cost high = 0;
        for (const Need& n : needed_[chord])
            high = std::max(high, n.payment - lowered_[n.demand]);
        if (payments(chord, 0) <= opening) return;
        while (low + 1 < high) {
            const Cost middle = low + (high - low) / 2;
            (payments(chord, middle) <= opening ? high : low) = middle;
        }
        for (const Need& n : needed_[chord]) {
            const Cost pays = n.payment - lowered_[n.demand];
            if (pays > 0) lowered_[n.demand] += std::min(pays, high);
        }
    }

    [[nodiscard]] Cost lowered(std::size_t demand) const { return lowered_[demand]; }

private:
    struct Need {
        std::size_t demand;
        Cost payment;
    };

    [[nodiscard]] WideCost payments(std::size_t chord, Cost less) const {
        WideCost sum = 0;
        for (const Need& n : needed_[chord])
            sum += std::max<Cost>(0, n.payment - lowered_[n.demand] - less);
        return sum;
    }

    std::vector<std::vector<Need>> needed_;
    std::vector<Cost> lowered_;
};

Cost whole_units(WideCost parts_sum, Cost parts) {
    WideCost units = parts_sum / parts;
    if (units * parts < parts_sum) ++units;  // A plan's cost is whole.
    return saturated(units);
}

}  // namespace

Cost bound_from_prices(const Relaxation& relaxation, const Network& network, const PriceTable& prices, Cost toll,
                       WorkerTeam& team) {
    const IntegerPrices whole = whole_prices(relaxation, prices, toll);
    const std::size_t demands = relaxation.demands.size();
    std::vector<DemandProof> proofs(demands, DemandProof(relaxation, network));
    team.run(demands, 1, [&](std::size_t d, std::size_t) { proofs[d].prove(relaxation.demands[d], whole[d]); });

    ChordPayments payments(demands, network.edges.size());
    WideCost sum = relaxation.constant - static_cast<WideCost>(toll) * relaxation.most_sites;
    for (std::size_t d = 0; d < demands; ++d) {
        if (proofs[d].in_tree == kLargestCost) return kLargestCost;
        sum += proofs[d].in_tree;
        if (relaxation.in_trees) continue;
        for (std::size_t e = 0; e < proofs[d].through.size(); ++e) {
            if (proofs[d].through[e] < proofs[d].in_tree) {
                payments.need(e, d, proofs[d].in_tree - proofs[d].through[e]);
            }
        }
    }
    if (relaxation.in_trees) return whole_units(sum, relaxation.parts);
    for (const EdgeId e : possible_chords(network, payments.dearest_first(relaxation.opening))) {
        payments.settle(e, relaxation.opening[e]);
    }
    for (std::size_t d = 0; d < demands; ++d)
        sum -= payments.lowered(d);
    return whole_units(sum, relaxation.parts);
}

}  // namespace spadework::graph::two_level
