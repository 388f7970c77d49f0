#include "graph/ring_bound.hpp"

#include <algorithm>
#include <cmath>

#include "graph/saturating.hpp"
#include "graph/simplex_projection.hpp"

namespace spadework::graph::rings {

namespace {

constexpr double kFewestRounds = 50;
constexpr double kMostRounds = 400;
constexpr double kWork = 1e6;        ///< Vertices times stops times rounds that are worth it in any case.
constexpr double kFactor = 0.6;      ///< Of the step that would close the gap if the bound rose straight (Polyak).
constexpr double kDecay = 0.85;      ///< Of the factor, when the bound has not risen for some rounds.
constexpr int kPatience = 5;         ///< Those rounds.
constexpr double kNewest = 0.1;      ///< Share of the newest ways in the averaged ones.
constexpr double kSharePace = 0.2;   ///< How fast charges move between the stops that share a link.
constexpr double kForOthers = 0.02;  ///< Weight of stops whose ring does not use a link, in the first prices.
constexpr std::size_t kMostPrices = 4'000'000;  ///< More would take too much memory and time.
constexpr Cost kMostParts = 1024;               ///< Prices are whole numbers of this part of a cost unit, if that fits.
constexpr Cost kLargestInParts = Cost{1} << 58;

/// Stops behind each vertex's part and in it.
std::vector<std::int32_t> stops_from_part_on(const LinkNetwork& network) {
    std::vector<std::int32_t> count(network.part_up.size(), 0);
    for (const VertexId stop : network.stops)
        ++count[network.part[stop]];
    for (std::size_t p = count.size(); p-- > 1;)
        count[network.part_up[p]] += count[p];
    return count;
}

/// Stops that need the same two ways: those that bridges alone part from `at`.
struct Terminal {
    VertexId at = 0;
    std::int64_t stops = 0;
};

/// Where the stop's way to the source first enters a part of more than one vertex.
std::vector<Terminal> terminals_of(const LinkNetwork& network) {
    std::vector<std::int32_t> size(network.part_up.size(), 0);
    for (const std::int32_t part : network.part)
        ++size[part];
    std::vector<VertexId> way_up(network.part_up.size(), -1);
    for (const Link& link : network.links) {
        if (!link.bridge) continue;
        const bool tail_above = network.part_up[network.part[link.head]] == network.part[link.tail];
        way_up[network.part[tail_above ? link.head : link.tail]] = tail_above ? link.tail : link.head;
    }
    std::vector<std::int64_t> stops(network.vertex_count, 0);
    for (VertexId at : network.stops) {
        while (size[network.part[at]] == 1 && way_up[network.part[at]] >= 0)
            at = way_up[network.part[at]];
        ++stops[at];
    }
    std::vector<Terminal> terminals;
    for (VertexId v = 0; v < network.vertex_count; ++v) {
        if (stops[v] > 0 && v != network.source) terminals.push_back({v, stops[v]});
    }
    return terminals;
}

/// One way of a link that is no bridge.
struct Slot {
    std::int32_t link = 0;
    Cost opening = 0;
    Cost charge = 0;
};

/// Prices, what they prove, and the steps that better them.
class Prices {
public:
    /// `target` is about as large as costs may come.
    Prices(const LinkNetwork& network, const RingFigures& figures, Cost target)
        : network_(network),
          figures_(figures),
          parts_(std::clamp<Cost>(kLargestInParts / std::max<Cost>(target, 1), 1, kMostParts)),
          terminals_(terminals_of(network)),
          ways_(network) {
        first_slot_.assign(network.links.size(), -1);
        for (std::size_t l = 0; l < network.links.size(); ++l) {
            if (network.links[l].bridge) continue;
            first_slot_[l] = static_cast<std::int32_t>(slots_.size());
            for (const LinkWay& way : network.links[l].ways)
                slots_.push_back({static_cast<std::int32_t>(l), way.opening, way.charge});
        }
        shared_.assign(slots_.size(), 0.0);
        link_price_.assign(network.links.size(), 0);
        slot_of_link_.assign(network.links.size(), -1);
    }

    [[nodiscard]] std::size_t size() const { return slots_.size() * terminals_.size(); }

    /// Charges on links that several rings of the plan use are shared by all; openings are paid by the stops whose
    /// rings use the link.
    void start_from(const Rounds& rounds) {
        const std::size_t k = terminals_.size();
        price_.assign(size(), 0.0);
        average_.assign(size(), 0.0);
        std::vector<std::vector<double>> weight(slots_.size(), std::vector<double>(k, kForOthers));
        std::vector<int> users(slots_.size(), 0);
        for (const Round& round : rounds) {
            std::vector<char> member(k, 0);
            std::vector<VertexId> at;
            for (const std::int32_t stop : round.stops)
                at.push_back(representative(network_.stops[stop]));
            for (std::size_t t = 0; t < k; ++t)
                member[t] = std::find(at.begin(), at.end(), terminals_[t].at) != at.end();
            for (const LinkPath& hop : round.hops) {
                for (const std::int32_t l : hop) {
                    if (first_slot_[l] < 0) continue;
                    const auto slot = static_cast<std::size_t>(first_slot_[l]);
                    ++users[slot];
                    for (std::size_t t = 0; t < k; ++t)
                        weight[slot][t] += member[t];
                }
            }
        }
        for (std::size_t j = 0; j < slots_.size(); ++j) {
            shared_[j] = users[j] > 1 ? 1.0 : 0.0;
            double sum = 0;
            for (const double w : weight[j])
                sum += w;
            for (std::size_t t = 0; t < k; ++t)
                price_[t * slots_.size() + j] = sum > 0 ? capacity(j) * weight[j][t] / sum : 0.0;
        }
    }

    /// What the prices prove, in whole numbers, for the links that are no bridges. Notes which ways are cheapest.
    WideCost evaluate() {
        WideCost total = 0;
        flows_.assign(terminals_.size(), {});
        room_.clear();
        for (std::size_t j = 0; j < slots_.size(); ++j)
            room_.push_back((slots_[j].opening + slots_[j].charge) * parts_ - figures_.longest_ring * share(j));
        for (std::size_t t = 0; t < terminals_.size(); ++t) {
            set_link_prices(t);
            const auto flow = ways_.two_flows(terminals_[t].at, network_.source, link_price_);
            if (!flow) return 0;
            total += flow->cost;
            for (const std::int32_t l : flow->links) {
                if (first_slot_[l] >= 0) flows_[t].push_back(slot_of_link_[l]);
            }
        }
        return (total + parts_ - 1) / parts_;  // What a plan costs is whole.
    }

    [[nodiscard]] int rounds_worth() const {
        const double a_round = static_cast<double>(terminals_.size()) * static_cast<double>(network_.vertex_count);
        return static_cast<int>(std::clamp(kWork / std::max(a_round, 1.0), kFewestRounds, kMostRounds));
    }

    /// Moves the prices along what the last evaluation's ways use beyond others, averaged with earlier ones.
    void step(double missing, double factor) {
        const std::size_t k = terminals_.size();
        const std::size_t n = slots_.size();
        for (double& a : average_)
            a *= 1.0 - kNewest;
        for (std::size_t t = 0; t < k; ++t) {
            for (const std::int32_t j : flows_[t])
                average_[t * n + static_cast<std::size_t>(j)] += kNewest;
        }
        double squares = 0;
        std::vector<double> sum(n, 0.0);
        for (std::size_t t = 0; t < k; ++t) {
            for (std::size_t j = 0; j < n; ++j) {
                const double a = average_[t * n + j];
                sum[j] += a;
                squares += a * a;
            }
        }
        for (std::size_t j = 0; j < n; ++j)
            squares -= sum[j] * sum[j] / static_cast<double>(k);
        if (squares <= 1e-9) return;
        const double length = factor * missing * static_cast<double>(parts_) / squares;
        std::vector<double> wishes;
        for (std::size_t j = 0; j < n; ++j) {
            if (sum[j] <= 1e-6) continue;
            share_charge(j, k);
            wishes.clear();
            for (std::size_t t = 0; t < k; ++t)
                wishes.push_back(price_[t * n + j] + length * average_[t * n + j]);
            std::vector<double> scratch = wishes;
            const double cut = cut_to_fit(scratch, capacity(j));
            for (std::size_t t = 0; t < k; ++t)
                price_[t * n + j] = std::max(0.0, wishes[t] - cut);
        }
    }

private:
    [[nodiscard]] VertexId representative(VertexId stop) const {
        // The terminal whose vertex the stop hangs on by bridges alone.
        for (const Terminal& terminal : terminals_) {
            if (terminal.at == stop) return stop;
        }
        return up_from(stop);
    }
    [[nodiscard]] VertexId up_from(VertexId stop) const {
        for (VertexId at = stop; at >= 0;) {
            VertexId next = -1;
            for (const LinkStep& s : network_.from(at)) {
                if (network_.links[s.link].bridge && network_.part[s.to] == network_.part_up[network_.part[at]]) {
                    next = s.to;
                }
            }
            for (const Terminal& terminal : terminals_) {
                if (terminal.at == next) return next;
            }
            at = next;
        }
        return -1;
    }

    [[nodiscard]] Cost share(std::size_t j) const {
        const Cost charge = slots_[j].charge * parts_;
        return std::min(charge, static_cast<Cost>(shared_[j] * static_cast<double>(charge))) / figures_.longest_ring;
    }
    [[nodiscard]] double capacity(std::size_t j) const {
        return static_cast<double>((slots_[j].opening + slots_[j].charge) * parts_ - figures_.longest_ring * share(j));
    }

    /// Moves how much of the charge is shared towards what the averaged ways ask for.
    void share_charge(std::size_t j, std::size_t k) {
        double all = 0;
        double most = 0;
        for (std::size_t t = 0; t < k; ++t) {
            const double a = average_[t * slots_.size() + j];
            all += a * static_cast<double>(terminals_[t].stops);
            most = std::max(most, a);
        }
        const double before = capacity(j);
        const double way = all / figures_.longest_ring - most;
        shared_[j] = std::clamp(shared_[j] + kSharePace * way, 0.0, 1.0);
        const double after = capacity(j);
        if (before <= 0.0) return;
        for (std::size_t t = 0; t < k; ++t)
            price_[t * slots_.size() + j] *= after / before;
    }

    void set_link_prices(std::size_t t) {
        std::fill(slot_of_link_.begin(), slot_of_link_.end(), -1);
        for (std::size_t j = 0; j < slots_.size(); ++j) {
            const Cost own = std::min(static_cast<Cost>(price_[t * slots_.size() + j]), room_[j]);
            room_[j] -= own;
            const Cost price = own + terminals_[t].stops * share(j);
            const std::int32_t l = slots_[j].link;
            if (slot_of_link_[l] >= 0 && link_price_[l] <= price) continue;
            link_price_[l] = price;
            slot_of_link_[l] = static_cast<std::int32_t>(j);
        }
    }

    const LinkNetwork& network_;
    RingFigures figures_;
    Cost parts_;
    std::vector<Terminal> terminals_;
    WaySearch ways_;
    std::vector<Slot> slots_;
    std::vector<std::int32_t> first_slot_;  ///< For each link, -1 for a bridge.
    std::vector<double> shared_;            ///< For each slot, how much of the charge all stops share.
    std::vector<double> price_;             ///< terminals * slots.
    std::vector<double> average_;           ///< Averaged ways, likewise.
    std::vector<std::vector<std::int32_t>> flows_;
    std::vector<Cost> room_;  ///< For each slot, what prices may still add up to.
    std::vector<Cost> link_price_;
    std::vector<std::int32_t> slot_of_link_;
};

}  // namespace

Cost least_for_bridges(const LinkNetwork& network, const RingFigures& figures) {
    const auto rings_for = [&](std::size_t stops) {
        return (static_cast<Cost>(stops) + figures.longest_ring - 1) / figures.longest_ring;
    };
    const std::vector<std::int32_t> stops = stops_from_part_on(network);
    Cost cost = rings_for(network.stops.size()) * figures.ring_cost;
    for (const Link& link : network.links) {
        if (!link.bridge) continue;
        const bool head_behind = network.part_up[network.part[link.head]] == network.part[link.tail];
        const std::int32_t behind = network.part[head_behind ? link.head : link.tail];
        cost += link.cost(2 * rings_for(static_cast<std::size_t>(stops[behind])));
    }
    return cost;
}

Cost lower_bound(const LinkNetwork& network, const RingFigures& figures, const Rounds& rounds, Cost target,
                 double target_gap, const pair_routes::StopRule& stop) {
    const Cost constant = least_for_bridges(network, figures);
    Prices prices(network, figures, target);
    Cost best = constant;
    prices.start_from(rounds);
    double factor = kFactor;
    int without_gain = 0;
    const int most_rounds = prices.rounds_worth();
    for (int round = 0; round < most_rounds && !stop.reached(); ++round) {
        const Cost now = saturated(prices.evaluate() + constant);
        if (now > best) {
            best = now;
            without_gain = 0;
        } else if (++without_gain >= kPatience) {
            factor *= kDecay;
            without_gain = 0;
        }
        const auto gap = static_cast<double>(target - best);
        if (gap <= target_gap * static_cast<double>(target)) break;
        prices.step(static_cast<double>(target - now), factor);
    }
    return best;
}

}  // namespace spadework::graph::rings
