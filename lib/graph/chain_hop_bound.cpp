#include "graph/chain_hop_bound.hpp"

#include <algorithm>

#include "graph/saturating.hpp"

namespace spadework::graph::chains {

namespace {

constexpr Cost kParts = 16;  ///< Penalties are whole numbers of this part of a cost unit.
constexpr int kRounds = 400;

/// Penalties for a stop's hops beyond two and for the source's hops that are missing, with the tree they lead to.
class PenalisedTree {
public:
    explicit PenalisedTree(const HopCosts& costs)
        : costs_(costs), penalty_(costs.stops, 0), degree_(costs.stops, 0), fewest_(fewest_chains(costs)) {}

    /// Least cost in parts of a spanning tree under the penalties, the allowance for them taken off.
    WideCost value() {
        const auto stops = static_cast<std::size_t>(costs_.stops);
        std::vector<Cost> nearest(stops);
        std::vector<std::int32_t> by(stops, -1);
        std::vector<char> joined(stops, 0);
        std::fill(degree_.begin(), degree_.end(), 0);
        source_degree_ = 0;
        for (std::size_t s = 0; s < stops; ++s) {
            nearest[s] = (costs_.from_source[s] + costs_.a_chain) * kParts - source_bonus_ + penalty_[s];
        }
        WideCost total = static_cast<WideCost>(source_bonus_) * fewest_;
        for (const Cost p : penalty_)
            total -= 2 * static_cast<WideCost>(p);
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
            const auto step = static_cast<Cost>(length * (degree_[s] - 2));
            penalty_[s] = std::max<Cost>(0, penalty_[s] + step);
        }
        const auto step = static_cast<Cost>(length * static_cast<double>(fewest_ - source_degree_));
        source_bonus_ = std::max<Cost>(0, source_bonus_ + step);
    }

    /// Sum of squares of what the last tree broke.
    [[nodiscard]] double broken() const {
        double squares = 0.0;
        for (std::size_t s = 0; s < penalty_.size(); ++s) {
            if (degree_[s] > 2 || penalty_[s] > 0) squares += (degree_[s] - 2) * (degree_[s] - 2);
        }
        const auto missing = static_cast<double>(fewest_ - source_degree_);
        return missing > 0.0 || source_bonus_ > 0 ? squares + missing * missing : squares;
    }

private:
    static Cost fewest_chains(const HopCosts& costs) {
        return (static_cast<Cost>(costs.stops) + costs.longest_chain - 1) / costs.longest_chain;
    }

    void join(std::size_t next, std::int32_t from, std::vector<Cost>& nearest, std::vector<std::int32_t>& by,
              std::vector<char>& joined) {
        joined[next] = 1;
        ++degree_[next];
        ++(from < 0 ? source_degree_ : degree_[from]);
        for (std::size_t s = 0; s < joined.size(); ++s) {
            if (joined[s]) continue;
            const Cost cost = costs_.between[next * joined.size() + s] * kParts + penalty_[s] + penalty_[next];
            if (cost >= nearest[s]) continue;
            nearest[s] = cost;
            by[s] = static_cast<std::int32_t>(next);
        }
    }

    const HopCosts& costs_;
    std::vector<Cost> penalty_;
    std::vector<std::int32_t> degree_;
    Cost fewest_;
    Cost source_bonus_ = 0;  ///< Taken off every hop from the source.
    std::int32_t source_degree_ = 0;
};

}  // namespace

Cost least_hops(const HopCosts& costs, Cost target) {
    if (costs.stops == 0) return 0;
    PenalisedTree tree(costs);
    WideCost best = tree.value();
    double factor = 1.0;
    int without_gain = 0;
    WideCost now = best;
    for (int round = 0; round < kRounds && factor > 1e-3; ++round) {
        const double squares = tree.broken();
        const double missing = static_cast<double>(target) * static_cast<double>(kParts) - static_cast<double>(now);
        if (squares <= 0.0 || missing <= 0.0) break;
        tree.move(factor * missing / squares);
        now = tree.value();
        if (now > best) {
            best = now;
            without_gain = 0;
        } else if (++without_gain >= 10) {
            factor *= 0.7;
            without_gain = 0;
        }
    }
    const WideCost whole = best / kParts;  // Rounds towards zero: up where it is negative, so step down then.
    return static_cast<Cost>(whole * kParts > best ? whole - 1 : whole);
}

}  // namespace spadework::graph::chains
