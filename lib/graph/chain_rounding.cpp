#include "graph/chain_rounding.hpp"

#include <algorithm>
#include <cmath>

#include "graph/chain_figures.hpp"
#include "graph/price_rounding.hpp"
#include "graph/saturating.hpp"

namespace spadework::graph::chains {

namespace {

constexpr double kLargestEarning = 1e17;

/// What is left of an edge's means: for arrivals and both directions, and used up by each direction (of rings,
/// which know none, by both as forwards).
struct Means {
    Cost left = 0;
    Cost forwards = 0;
    Cost backwards = 0;
};

class Rounding {
public:
    Rounding(const ChainProblem& problem, const ForkNetwork& network, Cost parts, bool closed)
        : network_(network), means_(problem.edges.size()), share_(problem.edges.size(), 0.0) {
        certificate.parts = parts;
        certificate.joining_prices.resize(problem.stops.size());
        certificate.arrival_prices.resize(problem.stops.size());
        for (std::size_t e = 0; e < problem.edges.size(); ++e) {
            charges_.push_back(hop_charge(problem).on(problem.edges[e]) * parts);
            certificate.hop_charges.push_back(charges_.back());
            means_[e].left = problem.edges[e].opening * parts;
        }
        if (closed) certificate.closing_prices.resize(problem.stops.size());
    }

    void set_hop_charges(const std::vector<double>& hop_charge_of) {
        for (std::size_t j = 0; j < network_.edges.size(); ++j) {
            const JoinedEdge& joined = network_.edges[j];
            const double part = joined.charge > 0.0 ? std::clamp(hop_charge_of[j] / joined.charge, 0.0, 1.0) : 1.0;
            for (const ArcId arc : joined.arcs) {
                const auto e = static_cast<std::size_t>(edge_of(arc));
                const Cost whole = certificate.hop_charges[e];
                const Cost kept = std::clamp<Cost>(static_cast<Cost>(part * static_cast<double>(whole)), 0, whole);
                certificate.hop_charges[e] = kept;
                means_[e].left += whole - kept;
            }
            share_out_means(joined);
        }
    }

    /// For the ways of as many stops as a ring holds.
    void set_ways_charges(const std::vector<double>& ways_charge_of, std::int32_t longest) {
        certificate.pass_charges.assign(means_.size(), 0);
        for (std::size_t j = 0; j < ways_charge_of.size(); ++j) {
            const JoinedEdge& joined = network_.edges[j];
            const double part = joined.charge > 0.0 ? std::clamp(ways_charge_of[j] / joined.charge, 0.0, 1.0) : 0.0;
            for (const ArcId arc : joined.arcs) {
                const auto e = static_cast<std::size_t>(edge_of(arc));
                const auto wish = static_cast<Cost>(part * static_cast<double>(charges_[e])) / longest;
                const Cost a_pass = std::clamp<Cost>(wish, 0, (charges_[e] - certificate.hop_charges[e]) / longest);
                certificate.pass_charges[e] = a_pass;
                means_[e].left -= longest * a_pass;
            }
            share_out_means(joined);
        }
    }

    /// Arrivals first: they lessen what either direction may use.
    void set_prices(const std::vector<std::vector<SlotPrice>>& paid) {
        for (const bool arrivals : {true, false}) {
            for (std::size_t t = 0; t < paid.size(); ++t) {
                for (const SlotPrice& p : paid[t]) {
                    if ((p.slot % 3 == SlotPrice::kArrival) == arrivals) share_out(t, p);
                }
            }
        }
    }

    ChainCertificate certificate;

private:
    /// What each edge pays of a price on the joined one.
    void share_out_means(const JoinedEdge& joined) {
        double all = 0.0;
        for (const ArcId arc : joined.arcs)
            all += static_cast<double>(means_[static_cast<std::size_t>(edge_of(arc))].left);
        for (const ArcId arc : joined.arcs) {
            const auto e = static_cast<std::size_t>(edge_of(arc));
            share_[e] = all > 0.0 ? static_cast<double>(means_[e].left) / all : 0.0;
        }
    }

    void share_out(std::size_t way, const SlotPrice& p) {
        const std::size_t stops = network_.stops.size();
        const double in_parts = p.price * static_cast<double>(certificate.parts);
        for (const ArcId arc : network_.edges[p.slot / 3].arcs) {
            const EdgeId edge = edge_of(arc);
            Means& means = means_[edge];
            const bool arrival = p.slot % 3 == SlotPrice::kArrival;
            const bool backwards = (arc % 2 == 1) != (p.slot % 3 == SlotPrice::kBackwards);
            Cost& used = backwards && certificate.closing_prices.empty() ? means.backwards : means.forwards;
            const Cost wish = static_cast<Cost>(std::clamp(std::floor(in_parts * share_[edge]), 0.0, 4e18));
            const Cost price = std::min(wish, arrival ? means.left : means.left - used);
            if (price <= 0) continue;
            if (arrival) {
                means.left -= price;
                auto& of_hop = way < stops ? certificate.arrival_prices : certificate.closing_prices;
                of_hop[way % stops].push_back({edge, price, false});
            } else {
                used += price;
                certificate.joining_prices[way].push_back({edge, price, backwards});
            }
        }
    }

    const ForkNetwork& network_;
    std::vector<Cost> charges_;  ///< By edge, in parts.
    std::vector<Means> means_;
    std::vector<double> share_;  ///< By edge: what it pays of a price on the joined edge.
};

}  // namespace

ChainCertificate certificate_of(const ChainProblem& problem, const ForkNetwork& network, const ChainPrices& prices,
                                Cost largest_plan) {
    const DualPoint& point = prices.best_point();
    double largest = static_cast<double>(std::max<Cost>(largest_plan, 1));
    for (const SharedCostEdge& edge : problem.edges) {
        largest =
            std::max(largest, static_cast<double>(edge.opening) + static_cast<double>(hop_charge(problem).on(edge)));
    }
    for (const std::vector<double>* earned : {&point.visit, &point.entry}) {
        for (const double v : *earned)
            largest = std::max(largest, std::abs(v));
    }
    const bool closed = point.paid.size() > problem.stops.size();
    Rounding rounding(problem, network, parts_for(largest), closed);
    rounding.set_hop_charges(point.hop_charge);
    if (closed) rounding.set_ways_charges(point.ways_charge, problem.longest_chain);
    rounding.set_prices(point.paid);
    const auto parts = static_cast<double>(rounding.certificate.parts);
    for (const double v : point.visit) {
        rounding.certificate.visit_prices.push_back(
            std::llround(std::clamp(v * parts, -kLargestEarning, kLargestEarning)));
    }
    for (std::size_t g = 0; g < point.entry.size(); ++g) {
        const auto price = static_cast<Cost>(std::clamp(point.entry[g] * parts, 0.0, kLargestEarning));
        if (price > 0) rounding.certificate.entry_prices.push_back({prices.groups().stops_of(g), price});
    }
    rounding.certificate.neighbours = prices.neighbours();
    return rounding.certificate;
}

}  // namespace spadework::graph::chains
