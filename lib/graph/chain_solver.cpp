#include "graph/chain_solver.hpp"

#include <algorithm>
#include <cmath>

#include "graph/chain_bound.hpp"
#include "graph/chain_prices.hpp"
#include "graph/chain_rounding.hpp"
#include "graph/chain_search.hpp"

namespace spadework::graph {

namespace {

constexpr double kFirstShare = 0.25;  ///< Of the time allowed, for plans before the bound.
constexpr double kBoundShare = 0.7;   ///< Until the prices are left as they are.
constexpr int kFirstPlans = 15;       ///< Passes before the averaged flows are worth planning by.
constexpr int kPassesBetweenPlans = 60;
constexpr double kSettled = 0.004;  ///< Step factor below which the prices hardly move.
constexpr int kFollowed = 4;        ///< Trees to plan from when the averaged flows are looked at.
constexpr int kScatters = 4;
constexpr int kShakes = 3;
constexpr int kInsisting = 4;  ///< Times that hops too long are charged more.
constexpr int kShakesInsisting = 40;
constexpr int kScattersInsisting = 10;
constexpr double kSearchWork = 5e5;  ///< Times of starting again or shaking, times stops and edges: no more than that.

/// Finds a plan and the prices that bound it, in turns.
class Run {
public:
    Run(const ChainProblem& problem, const SolveLimits& limits)
        : problem_(problem),
          limits_(limits),
          all_time_(limits.seconds, limits.progress),
          search_(problem, all_time_, limits.seed),
          at_any_length_(problem) {
        at_any_length_.span_of.clear();
    }

    ChainSolution take() {
        ChainSolution solution;
        if (!first_plan()) return solution;
        bound_ = chains::least_for_chains(problem_);
        tell();
        if (limits_.target_gap < 1.0) bound_by_prices(solution);
        improve();
        shorten_hops();
        (is_short_ ? solution.plan : solution.with_long_hops) = std::move(plan_);
        solution.bound = bound_;
        solution.interrupted = all_time_.reached();
        return solution;
    }

private:
    bool first_plan() {
        const pair_routes::StopRule first_time(limits_.seconds * kFirstShare, limits_.progress);
        chains::Search first_search(problem_, first_time, limits_.seed);
        auto layout = first_search.first();
        if (!layout) return false;
        layout_ = first_search.loosened(*layout);
        plan_ = plan_from(at_any_length_, first_search.network(), layout_);
        is_short_ = plan_ && cost_of(problem_, *plan_);
        return plan_.has_value();
    }

    /// A plan without too long hops is worth more than any with such.
    void offer(chains::Layout layout) {
        if (layout.cost >= layout_.cost) return;
        auto plan = plan_from(at_any_length_, search_.network(), layout);
        const bool is_short = plan && cost_of(problem_, *plan);
        if (!plan || is_short < is_short_ || (is_short == is_short_ && is_short && plan->value >= plan_->value)) return;
        layout_ = std::move(layout);
        plan_ = std::move(plan);
        is_short_ = is_short;
        tell();
    }

    void tell() const {
        if (!is_short_) return;
        if (limits_.progress != nullptr) limits_.progress->improved(plan_->value, bound_);
    }

    [[nodiscard]] bool close_enough(double bound) const {
        const auto value = static_cast<double>(plan_->value);
        return value - bound < 1.0 || value - bound <= limits_.target_gap * std::abs(value);
    }

    void bound_by_prices(ChainSolution& solution) {
        const pair_routes::StopRule time(limits_.seconds * kBoundShare, limits_.progress);
        const chains::ForkNetwork forks = chains::forks_of(problem_);
        WorkerTeam team(threads_worth_waking(limits_.threads, forks.stops.size(), forks.edges.size()));
        chains::ChainStepRule rule = chains::step_rule_for(forks.stops.size());
        rule.start_seconds = time.seconds_left() / 3;
        rule.progress = limits_.progress;
        chains::ChainPrices prices(problem_, forks, team, rule);
        raise(prices, forks, time);
        solution.certificate = chains::certificate_of(problem_, forks, prices, plan_->value);
        bound_ = std::max(bound_, chain_bound_proved(problem_, solution.certificate).value_or(bound_));
        tell();
    }

    void raise(chains::ChainPrices& prices, const chains::ForkNetwork& forks, const pair_routes::StopRule& time) {
        const int passes = chains::passes_worth(forks);
        for (int pass = 1; pass <= passes; ++pass) {
            prices.evaluate(static_cast<double>(plan_->value));
            if (close_enough(prices.best_bound()) || prices.factor() < kSettled || time.reached()) return;
            prices.step(static_cast<double>(plan_->value));
            if (pass % kPassesBetweenPlans == kFirstPlans) plan_by_flows(prices.edge_use(), forks);
        }
        plan_by_flows(prices.edge_use(), forks);
    }

    /// Plans from trees where edges that the averaged flows use come cheap.
    void plan_by_flows(const std::vector<double>& use, const chains::ForkNetwork& forks) {
        std::vector<double> use_of(problem_.edges.size(), 0.0);
        for (std::size_t j = 0; j < use.size(); ++j) {
            for (const ArcId arc : forks.edges[j].arcs)
                use_of[static_cast<std::size_t>(edge_of(arc))] = std::min(use[j], 1.0);
        }
        chains::Layout layout = layout_;
        search_.follow(use_of, layout, static_cast<int>(std::max(2.0, kFollowed * rounds())));
        offer(std::move(layout));
    }

    /// The share of the usual number of tries that a problem of this size gets.
    [[nodiscard]] double rounds() const {
        const double work = static_cast<double>(problem_.stops.size()) * static_cast<double>(problem_.edges.size());
        return std::clamp(kSearchWork / (work + 1.0), 0.1, 1.0);
    }

    /// Starts again from trees of varied costs and shakes the best, less often where that takes long.
    void improve() {
        chains::Layout layout = layout_;
        if (is_short_ && close_enough(static_cast<double>(bound_)) && limits_.target_gap < 1.0) return;
        search_.scatter(layout, static_cast<int>(kScatters * rounds()));
        search_.shake(layout, static_cast<int>(kShakes * rounds()));
        offer(std::move(layout));
    }

    /// Goes on while some hop is too long, each time more intent on having none.
    void shorten_hops() {
        for (int i = 0; i < kInsisting && !is_short_ && !all_time_.reached(); ++i) {
            search_.insist();
            layout_.cost = search_.cost_now(layout_);
            chains::Layout layout = layout_;
            search_.shake(layout, kShakesInsisting);
            search_.scatter(layout, kScattersInsisting);
            offer(std::move(layout));
        }
    }

    const ChainProblem& problem_;
    const SolveLimits& limits_;
    pair_routes::StopRule all_time_;
    chains::Search search_;
    chains::Layout layout_;
    std::optional<ChainPlan> plan_;
    ChainProblem at_any_length_;  ///< The problem without its limit on hops.
    bool is_short_ = false;       ///< The plan has no hop too long.
    Cost bound_ = 0;
};

}  // namespace

ChainSolution solve(const ChainProblem& problem, const SolveLimits& limits) {
    if (!chains::well_formed(problem)) return {};
    return Run(problem, limits).take();
}

}  // namespace spadework::graph
