#pragma once

// Prices that prove more and more: projected subgradient on the dual of the multicommodity flow model.

#include <limits>
#include <vector>

#include "graph/demand_ball.hpp"
#include "graph/dual_ascent.hpp"
#include "graph/worker_team.hpp"

namespace spadework::graph {

/// One list of arc prices for each demand.
using PriceSet = std::vector<std::vector<ArcPrice>>;

/// How the search steps. Found by trial on generated site maps.
struct StepRule {
    double flow_weight = 0.1;   ///< What a pass's paths count in the averaged flows.
    double start_factor = 0.3;  ///< Polyak step factor, and the most it grows back to.
    double growth = 1.01;       ///< Of the factor after a better bound.
    double decay = 0.9;         ///< Of the factor ...
    int patience = 20;          ///< ... after so many passes without a better bound.
    double deepest_dive = 1.0;  ///< A bound this many gaps below the best ...
    double dive_decay = 0.95;   ///< ... shrinks the factor by this at once, ...
    double dive_floor = 0.4;    ///< ... but not below this share of the start.
    double memory = 0.3;  ///< Weight of the last step in what is known of the share that opening costs let through.
    double price_share = 0.9;  ///< How far balls reach beyond what the prices cover; less is farther.
};

/// Holds each demand's prices and paths. A pass is `search_all` then `step`. A step goes along the averaged flows and
/// back onto the opening costs; its length is Polyak's for the part of the direction that the opening costs let through
/// (a conditional subgradient: Larsson, Patriksson, Stroemberg, "Conditional subgradient optimization", EJOR 88, 1996).
class PriceSearch {
public:
    PriceSearch(const SearchNetwork& network, WorkerTeam& team, StepRule rule);

    /// First prices by dual ascent towards one root option, all options in play.
    void start(std::size_t towards_option);

    /// Finds all priced distances; updates root bounds and the best prices.
    void search_all();

    /// Moves the prices along the averaged flows, aiming at a bound of `target`.
    void step(double target);

    /// How many roots in play have a bound above `limit` under the present prices.
    [[nodiscard]] std::size_t roots_above(double limit) const;

    /// Takes out of play every root whose bound passes `limit`, and keeps the prices that prove it.
    void drop_roots_above(double limit);

    /// Leaves one root in play for now and starts the step factor and the best bound afresh.
    void focus_on(std::uint32_t option);

    /// Keeps the best prices among the dropping prices.
    void keep_best_prices() { dropping_prices_.push_back(best_prices_); }

    /// Builds the balls anew around the present prices.
    void rebuild_balls();

    [[nodiscard]] double best_bound() const { return best_bound_; }
    [[nodiscard]] double bound() const { return bound_; }
    [[nodiscard]] std::size_t best_root() const { return best_root_; }
    [[nodiscard]] const std::vector<std::uint32_t>& roots_in_play() const { return roots_; }
    [[nodiscard]] const PriceSet& best_prices() const { return best_prices_; }
    [[nodiscard]] const std::vector<PriceSet>& dropping_prices() const { return dropping_prices_; }
    [[nodiscard]] double factor() const { return factor_; }
    [[nodiscard]] std::size_t ball_vertices() const;

    /// For each edge how much of it the averaged flows use: the largest flow of any demand, 0 to 1.
    [[nodiscard]] std::vector<double> edge_use() const;

private:
    /// One demand's share in a purse: the opening cost of an arc (or of an edge, see SearchNetwork::one_measure).
    struct Entry {
        std::uint32_t ball = 0;
        std::uint32_t place = 0;  ///< Arc in the ball.
        double charge = 0.0;
        double price = 0.0;
        double flow = 0.0;  ///< Average use by the demand's paths, 0 to 1.
    };

    void set_potentials();
    void build_balls(const PriceSet& prices, const PriceSet& flows, const std::vector<double>& radius);
    void list_entries(const PriceSet& prices, const PriceSet& flows);
    void add_entry(std::uint32_t d, std::uint32_t place, double price, double flow);
    void judge_bound();
    [[nodiscard]] PriceSet present_prices() const;
    [[nodiscard]] PriceSet present_flows() const;
    [[nodiscard]] std::int32_t root_number(const DemandBall& ball) const;
    void follow_path(std::size_t d, std::size_t worker);
    void project(std::size_t purse, double length);
    void show_cost(const Entry& entry);
    [[nodiscard]] std::size_t purse_of(ArcId arc) const { return network_.one_measure ? arc : edge_of(arc); }

    const SearchNetwork& network_;
    WorkerTeam& team_;
    StepRule rule_;
    std::vector<std::uint32_t> roots_;
    std::vector<PathLength> to_root_;
    std::vector<DemandBall> balls_;
    std::vector<std::vector<Entry>> purses_;         ///< Who pays or flows on each arc (or edge, see SearchNetwork).
    std::vector<std::vector<std::uint32_t>> fresh_;  ///< For each ball the path's arcs that are in no purse yet.
    std::vector<double> path_squares_;               ///< For each ball what its path added to the sum of flow squares.
    std::vector<double> flow_squares_;               ///< For each purse.
    std::vector<double> moved_squares_;
    double move_share_ = 1.0;  ///< Of a step along the flows, squared, what the opening costs let through.
    std::vector<BallScratch> scratch_;
    std::vector<BallBuilder> builders_;
    std::vector<std::vector<std::uint32_t>> paths_;
    std::vector<double> root_bounds_;
    double bound_ = 0.0;
    double best_bound_ = -std::numeric_limits<double>::infinity();
    std::size_t best_root_ = 0;
    PriceSet best_prices_;
    std::vector<PriceSet> dropping_prices_;
    double factor_;
    double target_ = std::numeric_limits<double>::infinity();
    int passes_without_gain_ = 0;
    bool first_pass_ = true;
};

}  // namespace spadework::graph
