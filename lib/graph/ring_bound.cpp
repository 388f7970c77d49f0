#include "graph/ring_bound.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

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

/// For each stop the vertex where its way to the source first enters a part of more than one vertex, or the source.
std::vector<VertexId> entries_of(const LinkNetwork& network) {
    std::vector<std::int32_t> size(network.part_up.size(), 0);
    for (const std::int32_t part : network.part)
        ++size[part];
    std::vector<VertexId> way_up(network.part_up.size(), -1);
    for (const Link& link : network.links) {
        if (!link.bridge) continue;
        const bool tail_above = network.part_up[network.part[link.head]] == network.part[link.tail];
        way_up[network.part[tail_above ? link.head : link.tail]] = tail_above ? link.tail : link.head;
    }
    std::vector<VertexId> entries = network.stops;
    for (VertexId& at : entries) {
        while (size[network.part[at]] == 1 && way_up[network.part[at]] >= 0)
            at = way_up[network.part[at]];
    }
    return entries;
}

std::vector<Terminal> terminals_at(const std::vector<VertexId>& entries, const LinkNetwork& network) {
    std::vector<std::int64_t> stops(network.vertex_count, 0);
    for (const VertexId at : entries)
        ++stops[at];
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
          entries_(entries_of(network)),
          terminals_(terminals_at(entries_, network)),
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
            const std::vector<char> member = terminals_in(round);
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
            const double sum = std::accumulate(weight[j].begin(), weight[j].end(), 0.0);
            for (std::size_t t = 0; t < k; ++t)
                price_[t * slots_.size() + j] = capacity(j) * weight[j][t] / sum;
        }
    }

    /// What the prices prove, in whole numbers, for the links that are no bridges; nothing when stopped. Notes which
    /// ways are cheapest.
    WideCost evaluate(const pair_routes::StopRule& stop) {
        WideCost total = 0;
        flows_.assign(terminals_.size(), {});
        room_.clear();
        for (std::size_t j = 0; j < slots_.size(); ++j)
            room_.push_back((slots_[j].opening + slots_[j].charge) * parts_ - figures_.longest_ring * share(j));
        for (std::size_t t = 0; t < terminals_.size(); ++t) {
            if (stop.reached()) return 0;
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
        std::vector<double> sum(n, 0.0);
        const double squares = direction_squared(sum);
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
    [[nodiscard]] std::vector<char> terminals_in(const Round& round) const {
        std::vector<char> member(terminals_.size(), 0);
        for (const std::int32_t stop : round.stops) {
            for (std::size_t t = 0; t < member.size(); ++t)
                member[t] |= static_cast<char>(terminals_[t].at == entries_[stop]);
        }
        return member;
    }

    [[nodiscard]] Cost share(std::size_t j) const {
        const Cost charge = slots_[j].charge * parts_;
        return std::min(charge, static_cast<Cost>(shared_[j] * static_cast<double>(charge))) / figures_.longest_ring;
    }
    [[nodiscard]] double capacity(std::size_t j) const {
        return static_cast<double>((slots_[j].opening + slots_[j].charge) * parts_ - figures_.longest_ring * share(j));
    }

    /// Of the averaged ways beyond what all stops want alike, which moves no price; with their sums by slot.
    [[nodiscard]] double direction_squared(std::vector<double>& sum) const {
        double squares = 0;
        if (terminals_.empty()) return squares;
        for (std::size_t i = 0; i < average_.size(); ++i) {
            sum[i % sum.size()] += average_[i];
            squares += average_[i] * average_[i];
        }
        for (const double all : sum)
            squares -= all * all / static_cast<double>(terminals_.size());
        return squares;
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
    std::vector<VertexId> entries_;  ///< By stop.
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

Cost rings_for(std::size_t stops, const RingFigures& figures) {
    return (static_cast<Cost>(stops) + figures.longest_ring - 1) / figures.longest_ring;
}

/// How many cables pass each link at the least where it is open: two for each ring that a bridge must let through.
std::vector<Cost> least_passes(const LinkNetwork& network, const RingFigures& figures) {
    const std::vector<std::int32_t> stops = stops_from_part_on(network);
    std::vector<Cost> passes;
    for (const Link& link : network.links) {
        const bool head_behind = network.part_up[network.part[link.head]] == network.part[link.tail];
        const std::int32_t behind = network.part[head_behind ? link.head : link.tail];
        passes.push_back(link.bridge ? 2 * rings_for(static_cast<std::size_t>(stops[behind]), figures) : 1);
    }
    return passes;
}

/// Less tight, for networks too large for prices: rings join all stops to the source, over links that each carry as
/// many cables as they must.
Cost joining_bound(const LinkNetwork& network, const RingFigures& figures, const SolveLimits& limits) {
    const std::vector<Cost> passes = least_passes(network, figures);
    SharedCostProblem joined{network.vertex_count, {}, {}, {{network.source, 0}}};
    for (std::size_t l = 0; l < network.links.size(); ++l) {
        const Link& link = network.links[l];
        joined.edges.push_back({link.tail, link.head, link.cost(passes[l]), 0, 0});
    }
    for (const VertexId stop : network.stops)
        joined.demands.push_back({stop, 0, 0});
    PartProgress part(limits.progress);
    SolveLimits own = limits;
    own.progress = &part;
    return rings_for(network.stops.size(), figures) * figures.ring_cost + solve(joined, own).bound;
}

}  // namespace

Cost least_for_bridges(const LinkNetwork& network, const RingFigures& figures) {
    Cost cost = rings_for(network.stops.size(), figures) * figures.ring_cost;
    const std::vector<Cost> passes = least_passes(network, figures);
    for (std::size_t l = 0; l < network.links.size(); ++l) {
        if (network.links[l].bridge) cost += network.links[l].cost(passes[l]);
    }
    return cost;
}

Cost lower_bound(const LinkNetwork& network, const RingFigures& figures, const Rounds& rounds, Cost target,
                 const SolveLimits& limits) {
    const Cost constant = least_for_bridges(network, figures);
    Prices prices(network, figures, target);
    if (prices.size() > kMostPrices) return std::max(constant, joining_bound(network, figures, limits));
    const pair_routes::StopRule stop(limits.seconds, limits.progress);
    Cost best = constant;
    prices.start_from(rounds);
    double factor = kFactor;
    int without_gain = 0;
    const int most_rounds = prices.rounds_worth();
    for (int round = 0; round < most_rounds && !stop.reached(); ++round) {
        const Cost now = saturated(prices.evaluate(stop) + constant);
        if (now > best) {
            best = now;
            without_gain = 0;
        } else if (++without_gain >= kPatience) {
            factor *= kDecay;
            without_gain = 0;
        }
        const auto gap = static_cast<double>(target - best);
        if (gap <= limits.target_gap * static_cast<double>(target)) break;
        prices.step(static_cast<double>(target - now), factor);
    }
    return best;
}

}  // namespace spadework::graph::rings
