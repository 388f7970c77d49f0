#pragma once

// One solve: plans from above, prices from below, until they meet or time is up.

#include <chrono>

#include "graph/plan_search.hpp"
#include "graph/price_search.hpp"
#include "graph/reduction.hpp"
#include "graph/shared_cost_solver.hpp"

namespace spadework::graph {

/// Works on a reduced problem in search figures (fixed costs left out).
class SolveRun {
public:
    SolveRun(const SharedCostProblem& problem, const ReducedProblem& small, const SolveLimits& limits);

    /// Finds a first plan, then raises the bound and improves the plan in turns.
    void run();

    [[nodiscard]] const SharedCostPlan& plan() const { return plan_; }
    [[nodiscard]] SharedCostCertificate certificate() const;
    [[nodiscard]] bool interrupted() const { return interrupted_; }

private:
    void first_plan();
    void raise_bound();
    void work_on_roots_in_play();
    void settle_one_by_one(const std::vector<std::uint32_t>& rivals);
    bool drop_roots();
    void plans_from_flows();
    void offer(TreeFound found);
    void tell() const;
    [[nodiscard]] bool closed() const;
    [[nodiscard]] bool out_of_time();

    const SharedCostProblem& problem_;
    const ReducedProblem& small_;
    SolveLimits limits_;
    std::chrono::steady_clock::time_point start_;
    SearchNetwork network_;
    WorkerTeam team_;
    PriceSearch prices_;
    std::optional<TreeFound> best_;
    SharedCostPlan plan_;
    double fixed_cost_ = 0.0;
    double lattice_ = 0.0;
    bool interrupted_ = false;
    int plan_rounds_ = 0;
};

}  // namespace spadework::graph
