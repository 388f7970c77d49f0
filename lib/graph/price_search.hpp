#pragma once

// Prices that prove more and more: projected subgradient on the dual of the multicommodity flow model.

#include <limits>
#include <memory>
#include <vector>

#include "graph/dual_ascent.hpp"
#include "graph/purse_prices.hpp"
#include "graph/search_network.hpp"
#include "graph/worker_team.hpp"

namespace spadework::graph {

/// How the search steps. Found by trial on generated site maps.
struct StepRule {
    double flow_weight = 0.1;     ///< What a pass's paths count in the averaged flows.
    double start_factor = 0.3;    ///< Polyak step factor, and the most it grows back to.
    double refocus_factor = 0.3;  ///< Step factor when one root is looked at alone.
    double growth = 1.01;         ///< Of the factor after a better bound.
    double decay = 0.9;           ///< Of the factor ...
    int patience = 20;            ///< ... after so many passes without a better bound.
    double deepest_dive = 1.0;    ///< A bound this many gaps below the best ...
    double dive_decay = 0.95;     ///< ... shrinks the factor by this at once, ...
    double dive_floor = 0.4;      ///< ... but not below this share of the start.
    double memory = 0.3;   ///< Weight of the last step in what is known of the share that opening costs let through.
    double cooling = 0.0;  ///< What the factor loses in every pass, as a share.
    bool aim_from_best = false;  ///< Steps as long as the gap to the best bound asks for, not to the last one.
    double farthest_aim = 2.0;  ///< Steps no longer than so many gaps to the best bound ask for: bounds that dive would
                                ///< lengthen them, and dive the more.
    double price_share = 0.9;   ///< How far balls reach beyond what the prices cover; less is farther.
};

/// Holds each demand's prices and paths. A pass is `search_all` then `step`. A step goes along the averaged flows and
/// back onto the opening costs; its length is Polyak's for the part of the direction that the opening costs let through
/// (a conditional subgradient: Larsson, Patriksson, Stroemberg, "Conditional subgradient optimization", EJOR 88, 1996).
class PriceSearch {
public:
    PriceSearch() = default;
    PriceSearch(const PriceSearch&) = delete;
    PriceSearch& operator=(const PriceSearch&) = delete;
    virtual ~PriceSearch() = default;

    /// First prices, from a dual ascent; all root options in play.
    virtual void start(std::vector<AscentPrices> ascent) = 0;

    /// Finds all priced distances; updates root bounds and the best prices.
    virtual void search_all() = 0;

    /// Moves the prices along the averaged flows, aiming at a bound of `target`.
    virtual void step(double target) = 0;

    /// How many roots in play have a bound above `limit` under the present prices.
    [[nodiscard]] virtual std::size_t roots_above(double limit) const = 0;

    /// Takes out of play every root whose bound passes `limit`, and keeps the prices that prove it.
    virtual void drop_roots_above(double limit) = 0;

    /// Leaves one root in play for now and starts the step factor and the best bound afresh.
    virtual void focus_on(std::uint32_t option) = 0;

    /// Keeps the best prices among the dropping prices.
    virtual void keep_best_prices() = 0;

    /// Builds the balls anew around the present prices.
    virtual void rebuild_balls() = 0;

    /// Gives back the memory of balls and flows; the best and the dropping prices stay. No more passes after that.
    virtual void finish() = 0;

    /// For each edge how much of it the averaged flows use: the largest flow of any demand, 0 to 1.
    [[nodiscard]] virtual std::vector<double> edge_use() const = 0;

    /// The bound of the prices searched last.
    [[nodiscard]] virtual double bound() const = 0;
    [[nodiscard]] virtual double best_bound() const = 0;
    [[nodiscard]] virtual std::size_t best_root() const = 0;
    [[nodiscard]] virtual const std::vector<std::uint32_t>& roots_in_play() const = 0;
    [[nodiscard]] virtual const PursePrices& best_prices() const = 0;
    [[nodiscard]] virtual const std::vector<PursePrices>& dropping_prices() const = 0;

    /// The present step factor.
    [[nodiscard]] virtual double factor() const = 0;

    /// Multiplies the step factor.
    virtual void scale_factor(double by) = 0;
};

/// A price search in figures that suit the problem's size: single precision from so many demands times edges on that
/// memory counts more than the last digits.
std::unique_ptr<PriceSearch> make_price_search(const SearchNetwork& network, WorkerTeam& team, const StepRule& rule);

}  // namespace spadework::graph
