#include "graph/chain_hop_bound.hpp"

#include <algorithm>
#include <cstdlib>

#include "graph/saturating.hpp"

namespace spadework::graph::chains {

namespace {

constexpr Cost kParts = 16;  ///< Penalties are whole numbers of this part of a cost unit.
constexpr int kRounds = 1000;
constexpr Cost kDearestHop = Cost{1} << 46;  ///< Dearer hops leave penalties no room in whole numbers.
constexpr Cost kLargestPenalty = Cost{1} << 50;
constexpr std::size_t kMostGroups = 128;

/// Penalties for a stop's hops beyond two and for the source's hops that are missing, with the tree they lead to.
class PenalisedTree {
public:
    PenalisedTree(const HopCosts& costs, const std::vector<StopGroup>& groups)
        : costs_(costs), penalty_(costs.stops, 0), degree_(costs.stops, 0), fewest_(fewest_chains(costs, costs.stops)) {
        for (const StopGroup& stops : groups) {
            if (groups_.size() == kMostGroups) break;
            Group group{std::vector<char>(costs.stops, 0), fewest_chains(costs, static_cast<Cost>(stops.size()))};
            for (const std::int32_t s : stops)
                group.inside[s] = 1;
            groups_.push_back(std::move(group));
        }
        spread_bonuses();
    }

    /// Least cost in parts of a spanning tree under the penalties, the allowance for them taken off.
    WideCost value() {
        const auto stops = static_cast<std::size_t>(costs_.stops);
        std::vector<Cost> nearest(stops);
        std::vector<std::int32_t> by(stops, -1);
        std::vector<char> joined(stops, 0);
        std::fill(degree_.begin(), degree_.end(), 0);
        source_degree_ = 0;
        hops_.clear();
        for (Group& g : groups_)
            g.entered = 0;
        for (std::size_t s = 0; s < stops; ++s) {
            nearest[s] = (costs_.from_source[s] + costs_.a_chain) * kParts - source_bonus_ - into_[s] + penalty_[s];
        }
        WideCost total = static_cast<WideCost>(source_bonus_) * fewest_;
        for (const Cost p : penalty_)
            total -= 2 * static_cast<WideCost>(p);
        for (const Group& g : groups_)
            total += static_cast<WideCost>(g.bonus) * g.fewest;
        for (std::size_t round = 0; round < stops; ++round) {
            std::size_t next = stops;
            for (std::size_t s = 0; s < stops; ++s) {
                if (!joined[s] && (next == stops || nearest[s] < nearest[next])) next = s;
            }
            total += nearest[next];
            join(next, by[next], nearest, by, joined);
        }
        return total;
    }

    /// Moves every penalty along what the last tree broke.
    void move(double length) {
        for (std::size_t s = 0; s < penalty_.size(); ++s) {
            const auto step = static_cast<Cost>(std::clamp(length * (degree_[s] - 2), -1e15, 1e15));
            penalty_[s] = std::clamp<Cost>(penalty_[s] + step, 0, kLargestPenalty);
        }
        const auto step =
            static_cast<Cost>(std::clamp(length * static_cast<double>(fewest_ - source_degree_), -1e15, 1e15));
        source_bonus_ = std::clamp<Cost>(source_bonus_ + step, 0, kLargestPenalty);
        for (Group& g : groups_) {
            g.bonus = std::clamp<Cost>(g.bonus + static_cast<Cost>(std::clamp(
                                                     length * static_cast<double>(g.fewest - g.entered), -1e15, 1e15)),
                                       0, kLargestPenalty);
        }
        spread_bonuses();
    }

    /// Hops of the last tree.
    [[nodiscard]] const std::vector<std::pair<std::int32_t, std::int32_t>>& hops() const { return hops_; }

    /// Sum of squares of what the last tree broke.
    [[nodiscard]] double broken() const {
        double squares = 0.0;
        for (std::size_t s = 0; s < penalty_.size(); ++s) {
            if (degree_[s] > 2 || penalty_[s] > 0) squares += (degree_[s] - 2) * (degree_[s] - 2);
        }
        for (const Group& g : groups_) {
            const auto lacking = static_cast<double>(g.fewest - g.entered);
            if (lacking > 0.0 || g.bonus > 0) squares += lacking * lacking;
        }
        const auto missing = static_cast<double>(fewest_ - source_degree_);
        return missing > 0.0 || source_bonus_ > 0 ? squares + missing * missing : squares;
    }

private:
    struct Group {
        std::vector<char> inside;
        Cost fewest = 0;   ///< Hops into it or out of it.
        Cost bonus = 0;    ///< Taken off every such hop.
        Cost entered = 0;  ///< Such hops of the last tree.
    };

    static Cost fewest_chains(const HopCosts& costs, Cost stops) {
        return (stops + costs.longest_chain - 1) / costs.longest_chain;
    }

    /// What the groups' bonuses take off each hop.
    void spread_bonuses() {
        const auto stops = static_cast<std::size_t>(costs_.stops);
        into_.assign(stops, 0);
        between_.assign(stops * stops, 0);
        for (const Group& g : groups_) {
            if (g.bonus == 0) continue;
            for (std::size_t s = 0; s < stops; ++s) {
                if (!g.inside[s]) continue;
                into_[s] += g.bonus;
                for (std::size_t t = 0; t < stops; ++t) {
                    if (g.inside[t]) continue;
                    between_[s * stops + t] += g.bonus;
                    between_[t * stops + s] += g.bonus;
                }
            }
        }
    }

    void join(std::size_t next, std::int32_t from, std::vector<Cost>& nearest, std::vector<std::int32_t>& by,
              std::vector<char>& joined) {
        joined[next] = 1;
        hops_.emplace_back(from, static_cast<std::int32_t>(next));
        ++degree_[next];
        ++(from < 0 ? source_degree_ : degree_[from]);
        for (Group& g : groups_) {
            const bool from_inside = from >= 0 && g.inside[from] != 0;
            g.entered += from_inside != (g.inside[next] != 0) ? 1 : 0;
        }
        for (std::size_t s = 0; s < joined.size(); ++s) {
            if (joined[s]) continue;
            const std::size_t hop = next * joined.size() + s;
            const Cost cost = costs_.between[hop] * kParts + penalty_[s] + penalty_[next] - between_[hop];
            if (cost >= nearest[s]) continue;
            nearest[s] = cost;
            by[s] = static_cast<std::int32_t>(next);
        }
    }

    const HopCosts& costs_;
    std::vector<Cost> penalty_;
    std::vector<std::int32_t> degree_;
    Cost fewest_;
    std::vector<Group> groups_;
    std::vector<Cost> into_;     ///< By stop: taken off its hop from the source.
    std::vector<Cost> between_;  ///< By pair of stops: taken off the hop between them.
    Cost source_bonus_ = 0;      ///< Taken off every hop from the source.
    std::int32_t source_degree_ = 0;
    std::vector<std::pair<std::int32_t, std::int32_t>> hops_;
};

Cost dearest_hop(const HopCosts& costs) {
    Cost dearest = std::abs(costs.a_chain);
    for (const Cost c : costs.from_source)
        dearest = std::max(dearest, c);
    for (const Cost c : costs.between)
        dearest = std::max(dearest, c);
    return dearest;
}

}  // namespace

HopBound least_hop_tree(const HopCosts& costs, const std::vector<StopGroup>& groups, Cost target) {
    if (costs.stops == 0) return {};
    PenalisedTree tree(costs, groups);
    WideCost best = tree.value();
    HopBound bound{0, tree.hops()};
    double factor = 1.0;
    int without_gain = 0;
    WideCost now = best;
    if (dearest_hop(costs) > kDearestHop) factor = 0.0;
    for (int round = 0; round < kRounds && factor > 1e-3; ++round) {
        const double squares = tree.broken();
        const double missing = static_cast<double>(target) * static_cast<double>(kParts) - static_cast<double>(now);
        if (squares <= 0.0 || missing <= 0.0) break;
        tree.move(factor * missing / squares);
        now = tree.value();
        if (now > best) {
            best = now;
            bound.hops = tree.hops();
            without_gain = 0;
        } else if (++without_gain >= 10) {
            factor *= 0.7;
            without_gain = 0;
        }
    }
    WideCost whole = best / kParts;
    if (whole * kParts < best) ++whole;  // What hops cost is whole.
    bound.cost = static_cast<Cost>(whole);
    return bound;
}

Cost least_hops(const HopCosts& costs, const std::vector<StopGroup>& groups, Cost target) {
    return least_hop_tree(costs, groups, target).cost;
}

}  // namespace spadework::graph::chains
