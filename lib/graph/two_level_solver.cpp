#include "graph/two_level_solver.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "graph/two_level_bound.hpp"
#include "graph/two_level_search.hpp"
#include "graph/two_level_single.hpp"

namespace spadework::graph {

namespace {

using two_level::BoundRun;
using two_level::Layout;
using two_level::Search;

constexpr int kMostPasses = 160;
constexpr int kPassesBetweenPlans = 20;

/// Plans and bound of one call, from first plans to proof.
class SolveTwoLevel {
public:
    SolveTwoLevel(const TwoLevelProblem& problem, const SolveLimits& limits)
        : problem_(problem), limits_(limits), stop_(limits.seconds, limits.progress), search_(problem, stop_) {
        fewest_ = std::max(problem.fewest_sites, 0);
        const auto sites = static_cast<std::int64_t>(problem.sites.size());
        most_ = static_cast<std::int32_t>(std::min<std::int64_t>(problem.most_sites, sites));
    }

    TwoLevelSolution run() {
        if (fewest_ > most_) return {};
        solution_.best_by_count.resize(static_cast<std::size_t>(most_) + 1);
        if (search_.possible()) first_plans();
        if (!solution_.plan) return solution_;
        if (two_level::is_single(problem_)) {
            solve_single();
        } else {
            raise_bound();
        }
        solution_.interrupted = stop_.reached();
        return solution_;
    }

private:
    void first_plans() {
        for (std::int32_t count = fewest_; count <= most_; ++count) {
            if (solution_.plan && stop_.reached()) return;
            offer(search_.with_sites(count));
        }
    }

    void offer(const std::optional<Layout>& layout) {
        if (!layout) return;
        if (offer(plan_from(problem_, search_.network(), search_.feeders(), *layout))) best_ = *layout;
    }

    /// True when the plan is the best so far.
    bool offer(const std::optional<TwoLevelPlan>& plan) {
        if (!plan) return false;
        auto& same_count = solution_.best_by_count[plan->open.size()];
        if (!same_count || plan->value < same_count->value) same_count = plan;
        if (solution_.plan && plan->value >= solution_.plan->value) return false;
        solution_.plan = plan;
        tell();
        return true;
    }

    /// One site at most: the single-root solver knows the better plans and bounds.
    void solve_single() {
        const auto single = two_level::single_root(problem_);
        if (!single) return;
        PartProgress part(limits_.progress);
        SolveLimits rest = limits_;
        rest.seconds = stop_.seconds_left();
        rest.progress = &part;
        const SharedCostSolution solved = solve(*single, rest);
        if (solved.plan) offer(two_level::plan_from(problem_, *solved.plan));
        solution_.bound = solved.bound;
        solution_.single = solved.certificate;
        tell();
    }

    void tell() const {
        if (limits_.progress != nullptr) limits_.progress->improved(solution_.plan->value, solution_.bound);
    }

    /// What one more site than allowed would save.
    Cost toll() {
        const auto count = static_cast<std::int32_t>(solution_.plan->open.size());
        if (count < problem_.most_sites || count >= static_cast<std::int32_t>(problem_.sites.size())) return 0;
        const auto more = search_.with_sites(count + 1);
        return more ? std::max<Cost>(0, solution_.plan->value - more->cost) : 0;
    }

    void raise_bound() {
        BoundRun bound(problem_, search_.network(), *solution_.plan, toll(), limits_.threads);
        for (int pass = 1; pass <= kMostPasses; ++pass) {
            const bool more = bound.pass(solution_.plan->value);
            if (!more || near_enough(bound.guess()) || stop_.reached()) break;
            if (pass % kPassesBetweenPlans == 0) plans_from_use(bound.edge_use(), pass / kPassesBetweenPlans);
        }
        solution_.bound = bound.prove();
        tell();
    }

    [[nodiscard]] bool near_enough(double bound) const {
        const auto value = static_cast<double>(solution_.plan->value);
        return value - bound <= limits_.target_gap * std::abs(value);
    }

    /// New plans where edges are the cheaper to open the more the bound uses them.
    void plans_from_use(const std::vector<double>& use, int round) {
        static constexpr std::array<double, 3> kDiscounts{0.9, 0.7, 0.97};
        const double discount = kDiscounts[static_cast<std::size_t>(round) % kDiscounts.size()];
        std::vector<Cost> opening;
        for (std::size_t e = 0; e < use.size(); ++e) {
            const double share = 1.0 - discount * std::min(use[e], 1.0);
            opening.push_back(static_cast<Cost>(static_cast<double>(problem_.edges[e].opening) * share));
        }
        const auto count = static_cast<std::int32_t>(best_.siting.open.size());
        offer(search_.from_openings(opening, count, best_.siting.open));
    }

    const TwoLevelProblem& problem_;
    const SolveLimits& limits_;
    pair_routes::StopRule stop_;
    Search search_;
    std::int32_t fewest_ = 0;
    std::int32_t most_ = 0;
    TwoLevelSolution solution_;
    Layout best_;
};

}  // namespace

TwoLevelSolution solve(const TwoLevelProblem& problem, const SolveLimits& limits) {
    if (!two_level::well_formed(problem)) return {};
    return SolveTwoLevel(problem, limits).run();
}

}  // namespace spadework::graph
