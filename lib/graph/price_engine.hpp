#pragma once

// The price search itself, in single or double precision.

#include "graph/ball_search.hpp"
#include "graph/price_search.hpp"

namespace spadework::graph {

template <class Real>
class PriceEngine final : public PriceSearch {
public:
    PriceEngine(const SearchNetwork& network, WorkerTeam& team, const StepRule& rule);

    void start(std::vector<AscentPrices> ascent) override;
    void search_all() override;
    void step(double target) override;
    [[nodiscard]] std::size_t roots_above(double limit) const override;
    void drop_roots_above(double limit) override;
    void focus_on(std::uint32_t option) override;
    void keep_best_prices() override { dropping_prices_.push_back(best_prices_); }
    void rebuild_balls() override;
    void finish() override;
    [[nodiscard]] std::vector<double> edge_use() const override;
    [[nodiscard]] double bound() const override { return bound_; }
    [[nodiscard]] double best_bound() const override { return best_bound_; }
    [[nodiscard]] std::size_t best_root() const override { return best_root_; }
    [[nodiscard]] const std::vector<std::uint32_t>& roots_in_play() const override { return roots_; }
    [[nodiscard]] const PursePrices& best_prices() const override { return best_prices_; }
    [[nodiscard]] const std::vector<PursePrices>& dropping_prices() const override { return dropping_prices_; }
    [[nodiscard]] double factor() const override { return factor_; }
    void scale_factor(double by) override { factor_ *= by; }

private:
    /// One demand's share in a purse.
    struct Entry {
        std::uint32_t demand = 0;
        std::uint32_t slot = 0;  ///< Where the demand holds the price.
        Real price = 0;
        Real flow = 0;  ///< Average use by the demand's paths, 0 to 1.
    };
    using Purse = std::vector<Entry>;  ///< Demands ascending.

    void set_potentials();
    void build_balls(const std::vector<double>& radius);
    void judge_bound();
    void copy_present_prices(PursePrices& prices) const;
    [[nodiscard]] std::uint32_t cheapest_start(std::size_t d) const;
    void follow_path(std::size_t d);
    [[nodiscard]] Entry* entry_of(std::size_t d, std::size_t purse);
    void enter_fresh_arcs();
    void project(std::size_t purse, double length);

    const SearchNetwork& network_;
    WorkerTeam& team_;
    StepRule rule_;
    std::vector<std::uint32_t> roots_;
    std::vector<PathLength> to_root_;
    std::unique_ptr<InwardArcs> arcs_;
    std::vector<DemandBall> balls_;
    std::vector<HeldPrices<Real>> held_;             ///< For each demand; in no order.
    std::vector<BallPaths> paths_;                   ///< For each ball.
    std::vector<Purse> purses_;                      ///< Who pays or flows on each arc (or edge).
    std::vector<std::vector<std::uint32_t>> fresh_;  ///< For each ball the path's arcs that are in no purse yet.
    std::vector<double> path_squares_;               ///< For each ball what its path added to the sum of flow squares.
    std::vector<double> flow_squares_;               ///< For each purse.
    std::vector<double> moved_squares_;
    double move_share_ = 1.0;  ///< Of a step along the flows, squared, what the opening costs let through.
    std::vector<BallSearch<Real>> searches_;  ///< For each worker.
    std::vector<double> root_bounds_;
    double bound_ = 0.0;
    double best_bound_ = -std::numeric_limits<double>::infinity();
    std::size_t best_root_ = 0;
    PursePrices best_prices_;
    std::vector<PursePrices> dropping_prices_;
    double factor_;
    double target_ = std::numeric_limits<double>::infinity();
    int passes_without_gain_ = 0;
    bool first_pass_ = true;
};

}  // namespace spadework::graph
