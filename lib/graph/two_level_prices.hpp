#pragma once

// Prices that raise the two-level bound: projected subgradient, in floating point. This steers; the proof is elsewhere.

#include <cstdint>
#include <vector>

#include "graph/two_level_search_field.hpp"
#include "graph/worker_team.hpp"

namespace spadework::graph::two_level {

/// For each demand, or whoever else pays, one price for each purse, in parts.
using PriceTable = std::vector<std::vector<float>>;

/// How much of a purse a demand's ways use: 1 for a way that goes through it, less where it goes there in part.
struct PurseUse {
    Purse purse = 0;
    float share = 1.0F;
};

class PriceDescent {
public:
    /// `rooms` says how much each purse holds, in parts.
    PriceDescent(std::vector<double> rooms, std::size_t demands, WorkerTeam& team);

    /// First prices: those given, brought down where they pass a purse.
    void start(PriceTable prices);

    /// Goes on from another's best prices and averaged ways, as far as the purses go. Those who pay here and do not
    /// there come last; they have paid nothing.
    void go_on_from(const PriceDescent& other);

    [[nodiscard]] const PriceTable& prices() const { return prices_; }

    /// For each demand the purses of its cheapest way under the present prices, or of several in parts that sum to 1:
    /// to be set before step().
    std::vector<std::vector<PurseUse>>& ways() { return ways_; }

    /// Takes note of what the present prices are worth; keeps them if they are the best yet.
    void judge(double bound);

    /// The same where prices are not kept, and what counts is not what the present ones are worth but what all prices
    /// so far have reached together.
    void judge(double bound, double reached);

    /// Moves the prices along the averaged ways, aiming at a bound of `target`.
    void step(double target);

    [[nodiscard]] double bound() const { return bound_; }  ///< What the present prices are worth.
    [[nodiscard]] double best_bound() const { return best_bound_; }
    [[nodiscard]] double factor() const { return factor_; }
    [[nodiscard]] const PriceTable& best_prices() const { return best_prices_; }

    /// For each of so many edges how much of it the averaged ways use: the largest of any demand in either direction,
    /// 0 to 1.
    [[nodiscard]] std::vector<double> edge_use(std::size_t edges) const;

    /// How much of a purse the averaged ways use: the largest of any demand, 0 to 1.
    [[nodiscard]] double use_of(Purse purse) const;

private:
    double move_flows(std::size_t demand);
    void project(Purse purse, double length);

    WorkerTeam& team_;
    std::vector<double> rooms_;
    PriceTable prices_;
    PriceTable flows_;
    std::vector<std::vector<char>> listed_;          ///< By demand, by purse: whether the demand is in `payers_`.
    std::vector<std::vector<Purse>> used_;           ///< By demand: purses with a flow.
    std::vector<std::vector<Purse>> fresh_;          ///< By demand: purses newly used in this pass.
    std::vector<std::vector<PurseUse>> ways_;        ///< By demand: purses of the last ways.
    std::vector<std::vector<std::int32_t>> payers_;  ///< By purse: demands with a price or a flow.
    std::vector<double> squares_;
    double bound_ = 0.0;
    double best_bound_;
    double reached_;
    double factor_ = 1.0;
    int steps_ = 0;
    int passes_without_gain_ = 0;
    bool first_pass_ = true;
    PriceTable best_prices_;
};

}  // namespace spadework::graph::two_level
