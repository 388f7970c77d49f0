#include "graph/solve_run.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "graph/construction.hpp"
#include "graph/cost_lattice.hpp"
#include "graph/key_path_search.hpp"
#include "graph/price_rounding.hpp"

namespace spadework::graph {

namespace {

constexpr double kSmallestFactor = 2e-3;  ///< Step factor at which the prices have settled.
constexpr int kPassesBetweenPlans = 25;

constexpr std::size_t kRootsForEachAlone = 3;
constexpr std::size_t kFewDemands = 300;

/// With many demands the averaged flows lag behind, and short steps pay.
StepRule step_rule_for(std::size_t demands) {
    StepRule rule;
    if (demands <= kFewDemands) return rule;
    rule.flow_weight = 0.2;
    rule.start_factor = 3.0;
    rule.growth = 1.0;
    rule.deepest_dive = 1000.0;
    rule.memory = 0.0;
    rule.price_share = 0.95;
    return rule;
}

}  // namespace

SolveRun::SolveRun(const SharedCostProblem& problem, const ReducedProblem& small, const SolveLimits& limits)
    : problem_(problem),
      small_(small),
      limits_(limits),
      start_(std::chrono::steady_clock::now()),
      network_(small.problem, small.one_measure),
      team_(threads_worth_waking(limits.threads, small.problem.demands.size(), small.problem.edges.size())),
      prices_(network_, team_, step_rule_for(network_.demand_at.size())),
      lattice_(static_cast<double>(lattice_step(problem))) {}

void SolveRun::run() {
    first_plan();
    if (!small_.problem.demands.empty()) raise_bound();
}

void SolveRun::first_plan() {
    offer(sketched_tree(network_));
}

void SolveRun::offer(TreeFound found) {
    if (best_ && found.cost >= best_->cost * (1.0 - 1e-13)) return;
    SharedCostPlan plan =
        expanded(small_.way_back, plan_of(network_, found.tree), small_.problem.edges, small_.problem.roots);
    plan.value = cost_of(problem_, plan).value_or(kLargestCost);
    if (best_ && plan.value >= plan_.value) return;
    fixed_cost_ = static_cast<double>(plan.value) - found.cost;
    plan_ = std::move(plan);
    best_ = std::move(found);
    tell();
}

void SolveRun::tell() const {
    if (limits_.progress == nullptr) return;
    const double bound = prices_.best_bound() + fixed_cost_;
    limits_.progress->improved(plan_.value, bound > 0.0 ? static_cast<Cost>(std::floor(bound)) : 0);
}

bool SolveRun::closed() const {
    const double gap = best_->cost - prices_.best_bound();
    const double rounding = 1e-12 * static_cast<double>(plan_.value);
    return gap < lattice_ * 0.999 - rounding || gap <= limits_.target_gap * static_cast<double>(plan_.value);
}

bool SolveRun::out_of_time() {
    const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - start_;
    if (passed.count() > limits_.seconds) interrupted_ = true;
    if (limits_.progress != nullptr && limits_.progress->should_stop()) interrupted_ = true;
    return interrupted_;
}

void SolveRun::raise_bound() {
    const auto option = std::find(network_.root_at.begin(), network_.root_at.end(), best_->tree.root());
    prices_.start(static_cast<std::size_t>(option - network_.root_at.begin()));
    work_on_roots_in_play();
    const std::vector<std::uint32_t> rivals = prices_.roots_in_play();
    if (rivals.size() > 1 && !closed() && !out_of_time()) settle_one_by_one(rivals);
    tell();
}

/// Passes until the bound meets the plan, the prices settle, or few enough roots are in play to look at each alone.
void SolveRun::work_on_roots_in_play() {
    const bool many_roots = prices_.roots_in_play().size() > 1;
    for (int pass = 1; !out_of_time(); ++pass) {
        prices_.search_all();
        if (closed() || prices_.factor() < kSmallestFactor) return;
        if (many_roots && prices_.roots_in_play().size() <= kRootsForEachAlone) return;
        if (many_roots && drop_roots()) continue;
        if (!many_roots && prices_.bound() > best_->cost + lattice_) return;  // Proved worse than the best plan.
        prices_.step(best_->cost);
        if (pass % kPassesBetweenPlans == 0 || pass == 5) plans_from_flows();
        if (pass == 20 || pass % 100 == 0) prices_.rebuild_balls();
    }
}

/// Proves each root's bound with prices of its own.
void SolveRun::settle_one_by_one(const std::vector<std::uint32_t>& rivals) {
    prices_.keep_best_prices();
    for (const std::uint32_t root : rivals) {
        // Balls are built anew from what a search found; without time for a search there is nothing to build from.
        if (out_of_time()) return;
        prices_.focus_on(root);
        work_on_roots_in_play();
        prices_.keep_best_prices();
    }
}

bool SolveRun::drop_roots() {
    const std::size_t in_play = prices_.roots_in_play().size();
    // Prices that prove a drop are kept, so a drop must be worth it.
    const std::size_t few = in_play <= 8 ? 1 : in_play / 4;
    if (in_play == 1 || prices_.roots_above(best_->cost) < few) return false;
    prices_.drop_roots_above(best_->cost);
    return true;
}

void SolveRun::plans_from_flows() {
    static constexpr std::array<double, 3> kDiscounts{0.97, 0.9, 0.7};
    const std::vector<double> use = prices_.edge_use();
    const VertexId root = network_.root_at[prices_.best_root()];
    const std::vector<PathLength> to_root = shortest_reach(network_, {root});
    const std::array orders{heaviest_first(network_, to_root), nearest_first(network_, to_root)};
    std::array<std::optional<TreeFound>, 2> found;
    team_.run(found.size(), 1, [&](std::size_t i, std::size_t) {
        std::vector<double> opening = network_.opening;
        const double discount = kDiscounts[(plan_rounds_ + i) % kDiscounts.size()];
        for (std::size_t e = 0; e < opening.size(); ++e)
            opening[e] *= 1.0 - discount * std::min(use[e], 1.0);
        RouteTree tree = joined_one_by_one(network_, root, opening, to_root, orders[i]);
        exchange_key_paths(network_, network_.opening, to_root, tree);
        const double cost = network_.root_cost[prices_.best_root()] + tree.cost(network_, network_.opening);
        found[i] = TreeFound{std::move(tree), cost};
    });
    for (auto& tree : found)
        offer(std::move(*tree));
    ++plan_rounds_;
}

SharedCostCertificate SolveRun::certificate() const {
    SharedCostCertificate certificate;
    certificate.parts = parts_for(static_cast<double>(plan_.value));
    const auto write = [&](const PriceSet& prices) {
        return expanded(small_.way_back, rounded(small_.problem, prices, certificate.parts), certificate.parts);
    };
    PriceSet best = prices_.best_prices();
    best.resize(small_.problem.demands.size());
    certificate.prices = write(best);
    for (const PriceSet& prices : prices_.dropping_prices())
        certificate.more_prices.push_back(write(prices));
    return certificate;
}

}  // namespace spadework::graph
