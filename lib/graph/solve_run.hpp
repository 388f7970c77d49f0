#pragma once

// One solve: plans from above, prices from below, until they meet or time is up.

#include <memory>
#include <optional>

#include "graph/construction.hpp"
#include "graph/known_prices.hpp"
#include "graph/plan_search.hpp"
#include "graph/price_search.hpp"
#include "graph/reduction.hpp"
#include "graph/region_search.hpp"
#include "graph/shared_cost_solver.hpp"
#include "graph/solve_clock.hpp"

namespace spadework::graph {

/// Works on a reduced problem in search figures (fixed costs left out).
class SolveRun {
public:
    /// Starts from known prices of the problem where they are given.
    SolveRun(const SharedCostProblem& problem, const ReducedProblem& small, const SolveLimits& limits,
             const KnownPrices* known = nullptr);

    /// Finds a first plan, then raises the bound and improves the plan in turns.
    void run();

    /// With one root and a gap left: looks for better plans by assuming of edges which flows use in part that they are
    /// there, or are not. After `run`.
    void try_choices();

    [[nodiscard]] const SharedCostPlan& plan() const { return plan_; }
    /// By edge of the original problem, how much of it the averaged flows use, 0 to 1. Before `certificate`.
    [[nodiscard]] std::vector<double> edge_use() const;
    /// The prices that prove most. Gives back the search's memory: the last call.
    [[nodiscard]] SharedCostCertificate certificate();
    [[nodiscard]] bool interrupted() const { return interrupted_; }

private:
    [[nodiscard]] std::vector<AscentPrices> first_plan_and_prices();
    [[nodiscard]] KnownPrices known_in_small() const;
    void raise_bound(std::vector<AscentPrices> ascent);
    void work_on_roots_in_play();
    void settle_one_by_one(const std::vector<std::uint32_t>& rivals);
    bool drop_roots();
    [[nodiscard]] bool few_enough_to_settle() const;
    void renew_plans_and_balls(int pass);
    void plans_from_flows();
    [[nodiscard]] TreeFound tree_along(const std::vector<double>& use, double discount, DemandOrder order) const;
    [[nodiscard]] std::vector<EdgeId> half_used(const std::vector<double>& use) const;
    void try_choice(EdgeId edge, const std::vector<double>& use);
    void improve_regions(const std::vector<double>& use, TreeFound& found) const;
    void rebuild_balls();
    void cool_down_in_time(int passes_done, double seconds_before);
    void offer(TreeFound found);
    void tell() const;
    [[nodiscard]] double aim() const;
    [[nodiscard]] bool closed() const;
    [[nodiscard]] bool out_of_time();

    const SharedCostProblem& problem_;
    const ReducedProblem& small_;
    SolveLimits limits_;
    const KnownPrices* known_;
    SolveClock clock_;
    SearchNetwork network_;
    WorkerTeam team_;
    StepRule rule_;
    std::unique_ptr<PriceSearch> prices_;
    std::optional<TreeFound> best_;
    SharedCostPlan plan_;
    Neighbours neighbours_;
    LongestTime pass_time_;
    LongestTime plan_time_;
    LongestTime rebuild_time_;
    double fixed_cost_ = 0.0;
    double lattice_ = 0.0;
    bool interrupted_ = false;
    int plan_rounds_ = 0;
};

}  // namespace spadework::graph
