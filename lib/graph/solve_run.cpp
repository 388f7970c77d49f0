#include "graph/solve_run.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>

#include "graph/construction.hpp"
#include "graph/cost_lattice.hpp"
#include "graph/key_path_search.hpp"
#include "graph/price_rounding.hpp"

namespace spadework::graph {

namespace {

constexpr double kSmallestFactor = 2e-3;  ///< Step factor at which the prices have settled, ...
constexpr double kSettledFactor = 2e-2;   ///< ... and nearly so: enough where a gap may stay or is closed otherwise.
constexpr double kFinalFactor = 0.15;     ///< Step factor to arrive at when time runs out, ...
constexpr double kCoolingFrom = 0.35;     ///< ... cooling down to it from this share of the time on.
constexpr double kProofTime = 6.0;        ///< What the final proof takes at most, in times of building all balls.
constexpr int kPassesToHalve = 200;       ///< The gap, or it is left to splits.
constexpr int kPassesFromKnown = 150;     ///< More of them gain less than splitting does.
constexpr int kPassesBetweenPlans = 25;
constexpr int kPassesBetweenPlansForMany = 50;
constexpr std::size_t kManyDemands = 1000;

constexpr std::size_t kRootsForEachAlone = 3;
constexpr std::size_t kRootsToSettle = 64;  ///< So many are looked at each alone ...
constexpr int kPassesWithoutDrop = 60;      ///< ... once prices that all have to live with drop no more of them.
constexpr std::size_t kFewDemands = 300;
constexpr std::size_t kRegionDemands = 12;
constexpr std::size_t kTriesForEachDemand = 4;

constexpr std::array<double, 3> kDiscounts{0.97, 0.9,
                                           0.7};  ///< Of the opening of what flows use, when plans are built.
constexpr std::size_t kChoices = 32;              ///< Edges of which it is assumed that they are there, or are not.
constexpr double kGapForChoices = 1e-4;  ///< A smaller share of the plan's value is not worth the time they take.
constexpr double kUsedInPart = 0.05;     ///< Flows use so much of an edge in question, and leave as much unused.

/// With many demands prices have far to go from where the dual ascent left them: long steps first, which shake the
/// bound, then ever shorter ones, which settle it.
StepRule step_rule_for(std::size_t demands) {
    StepRule rule;
    if (demands <= kFewDemands) return rule;
    rule.flow_weight = 0.15;
    rule.start_factor = 12.0;
    rule.refocus_factor = 3.0;
    rule.growth = 1.0;
    rule.decay = 0.95;
    rule.patience = 50;
    rule.deepest_dive = 1000.0;
    rule.memory = 0.0;
    rule.cooling = 0.002;
    rule.aim_from_best = true;
    rule.price_share = 0.95;
    return rule;
}

}  // namespace

SolveRun::SolveRun(const SharedCostProblem& problem, const ReducedProblem& small, const SolveLimits& limits,
                   const KnownPrices* known)
    : problem_(problem),
      small_(small),
      limits_(limits),
      known_(known),
      clock_(limits.seconds),
      network_(small.problem, small.one_measure),
      team_(threads_worth_waking(limits.threads, small.problem.demands.size(), small.problem.edges.size())),
      rule_(known != nullptr ? StepRule() : step_rule_for(network_.demand_at.size())),
      prices_(make_price_search(network_, team_, rule_)),
      lattice_(static_cast<double>(lattice_step(problem))) {}

void SolveRun::run() {
    std::vector<AscentPrices> ascent = first_plan_and_prices();
    if (!small_.problem.demands.empty()) raise_bound(std::move(ascent));
}

/// With a fixed root, plan and prices do not wait for each other.
std::vector<AscentPrices> SolveRun::first_plan_and_prices() {
    std::optional<TreeFound> tree;
    std::vector<AscentPrices> ascent;
    const auto ascend = [&](VertexId root) {
        const std::vector<PathLength> to_root = shortest_reach(network_, {root});
        ascent = known_ != nullptr ? as_ascent(network_, root, to_root, known_in_small())
                                   : dual_ascent(network_, root, to_root);
    };
    const bool one_root = network_.root_at.size() == 1;
    team_.run(one_root ? 2 : 1, 1, [&](std::size_t task, std::size_t) {
        if (task == 0) {
            tree = sketched_tree(network_);
        } else {
            ascend(network_.root_at.front());
        }
    });
    if (!one_root) ascend(tree->tree.root());
    offer(std::move(*tree));
    return ascent;
}

KnownPrices SolveRun::known_in_small() const {
    return {contracted(small_.way_back, known_->prices, network_.demand_at.size()), known_->parts};
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
    const double bound = prices_->best_bound() + fixed_cost_;
    limits_.progress->improved(plan_.value, bound > 0.0 ? static_cast<Cost>(std::floor(bound)) : 0);
}

/// What the bound is raised towards: the best plan, or what is wanted where that is less.
double SolveRun::aim() const {
    if (limits_.bound_wanted >= plan_.value) return best_->cost;
    return static_cast<double>(limits_.bound_wanted) - fixed_cost_;
}

bool SolveRun::closed() const {
    const double gap = aim() - prices_->best_bound();
    const double rounding = 1e-12 * static_cast<double>(plan_.value);
    return gap < lattice_ * 0.999 - rounding || gap <= limits_.target_gap * static_cast<double>(plan_.value);
}

bool SolveRun::out_of_time() {
    if (clock_.left() < pass_time_.seconds()) interrupted_ = true;
    if (limits_.progress != nullptr && limits_.progress->should_stop()) interrupted_ = true;
    return interrupted_;
}

void SolveRun::raise_bound(std::vector<AscentPrices> ascent) {
    LongestTime start_time;
    start_time.of(clock_, [&] { prices_->start(std::move(ascent)); });
    clock_.keep_back(start_time.seconds() * kProofTime);
    const bool had_choice = prices_->roots_in_play().size() > 1;
    work_on_roots_in_play();
    const std::vector<std::uint32_t> rivals = prices_->roots_in_play();
    if (had_choice && !closed() && !out_of_time()) settle_one_by_one(rivals);
    tell();
}

/// Passes until the bound meets the plan, the prices settle, or few enough roots are in play to look at each alone,
/// which is quicker once prices for all of them drop no more.
void SolveRun::work_on_roots_in_play() {
    const bool many_roots = prices_->roots_in_play().size() > 1;
    const double seconds_before = clock_.passed();
    const bool splits_follow = limits_.most_splits > 0 && problem_.roots.size() == 1;
    const bool nearly_will_do = limits_.target_gap > 0.0 || splits_follow;
    const double settled = nearly_will_do ? kSettledFactor : kSmallestFactor;
    int last_drop = 0;
    double gap_before = std::numeric_limits<double>::infinity();
    for (int pass = 1; !out_of_time(); ++pass) {
        pass_time_.of(clock_, [&] { prices_->search_all(); });
        if (closed() || prices_->factor() < settled) return;
        if (splits_follow && pass % kPassesToHalve == 0) {
            const double gap = aim() - prices_->best_bound();
            if (gap > gap_before / 2) return;
            gap_before = gap;
        }
        if (known_ != nullptr && pass >= kPassesFromKnown) return;
        if (many_roots && prices_->roots_in_play().size() <= kRootsForEachAlone) return;
        if (many_roots && drop_roots()) {
            last_drop = pass;
            continue;
        }
        if (pass - last_drop >= kPassesWithoutDrop && few_enough_to_settle()) return;
        if (!many_roots && prices_->bound() > best_->cost + lattice_) return;  // Proved worse than the best plan.
        cool_down_in_time(pass, seconds_before);
        pass_time_.of(clock_, [&] { prices_->step(aim()); });
        renew_plans_and_balls(pass);
    }
}

bool SolveRun::few_enough_to_settle() const {
    const std::size_t in_play = prices_->roots_in_play().size();
    return in_play > 1 && in_play <= kRootsToSettle;
}

void SolveRun::renew_plans_and_balls(int pass) {
    const int between_plans =
        network_.demand_at.size() <= kManyDemands ? kPassesBetweenPlans : kPassesBetweenPlansForMany;
    if ((pass % between_plans == 0 || pass == 5) && plan_time_.seconds() < clock_.left())
        plan_time_.of(clock_, [&] { plans_from_flows(); });
    if ((pass == 20 || pass % 100 == 0) && 2.0 * rebuild_time_.seconds() < clock_.left()) rebuild_balls();
}

void SolveRun::rebuild_balls() {
    rebuild_time_.of(clock_, [&] { prices_->rebuild_balls(); });
    clock_.keep_back(kProofTime * rebuild_time_.seconds());
}

/// Long steps are of no use at the end: takes the factor down so that it arrives at its final size with the time.
void SolveRun::cool_down_in_time(int passes_done, double seconds_before) {
    if (rule_.cooling <= 0.0 || clock_.share_gone() < kCoolingFrom) return;
    const double passes_left = clock_.left() * passes_done / (clock_.passed() - seconds_before);
    const double by = std::pow(kFinalFactor / prices_->factor(), 1.0 / std::max(passes_left, 1.0));
    if (by < 1.0 - rule_.cooling) prices_->scale_factor(by / (1.0 - rule_.cooling));
}

/// Proves each root's bound with prices of its own.
void SolveRun::settle_one_by_one(const std::vector<std::uint32_t>& rivals) {
    prices_->keep_best_prices();
    for (const std::uint32_t root : rivals) {
        // Balls are built anew from what a search found; without time for a search there is nothing to build from.
        if (out_of_time()) return;
        prices_->focus_on(root);
        work_on_roots_in_play();
        prices_->keep_best_prices();
    }
}

bool SolveRun::drop_roots() {
    const std::size_t in_play = prices_->roots_in_play().size();
    // Prices that prove a drop are kept, so a drop must be worth it.
    const std::size_t few = in_play <= 8 ? 1 : in_play / 4;
    if (in_play == 1 || prices_->roots_above(best_->cost) < few) return false;
    prices_->drop_roots_above(best_->cost);
    return true;
}

/// Improves the best tree and builds others along the flows. With few demands two orders of building are tried.
void SolveRun::plans_from_flows() {
    const std::vector<double> use = prices_->edge_use();
    if (neighbours_.empty()) neighbours_ = nearest_demands(network_, kRegionDemands);
    const bool few = network_.demand_at.size() <= kFewDemands;
    const double discount = kDiscounts[plan_rounds_ % kDiscounts.size()];
    std::array<std::optional<TreeFound>, 3> found;
    team_.run(few ? 3 : 2, 1, [&](std::size_t task, std::size_t) {
        found[task] = task == 0 ? *best_ : tree_along(use, discount, task == 1 ? nearest_first : heaviest_first);
        if (task == 0 || !few) improve_regions(use, *found[task]);
    });
    for (auto& tree : found) {
        if (tree) offer(std::move(*tree));
    }
    ++plan_rounds_;
}

/// A tree built where edges that the flows use cost little to open.
TreeFound SolveRun::tree_along(const std::vector<double>& use, double discount, DemandOrder order) const {
    const std::size_t option = prices_->best_root();
    const VertexId root = network_.root_at[option];
    const std::vector<PathLength> to_root = shortest_reach(network_, {root});
    std::vector<double> opening = network_.opening;
    for (std::size_t e = 0; e < opening.size(); ++e)
        opening[e] *= 1.0 - discount * std::min(use[e], 1.0);
    RouteTree tree = joined_one_by_one(network_, root, opening, to_root, order(network_, to_root));
    exchange_key_paths(network_, to_root, tree);
    const double cost = network_.root_cost[option] + tree.cost(network_, network_.opening);
    return {std::move(tree), cost};
}

void SolveRun::improve_regions(const std::vector<double>& use, TreeFound& found) const {
    const std::vector<PathLength> to_root = shortest_reach(network_, {found.tree.root()});
    const std::size_t demands = network_.demand_at.size();
    const std::size_t tries = demands <= kFewDemands ? demands : kTriesForEachDemand * demands;
    found = with_regions_rebuilt(network_, {to_root, use, neighbours_}, found, tries, limits_.seed + plan_rounds_);
}

void SolveRun::try_choices() {
    const bool few = network_.demand_at.size() <= kFewDemands;
    if (network_.root_at.size() != 1 || network_.demand_at.empty() || !few) return;
    const auto open = [&] { return aim() - prices_->best_bound() > kGapForChoices * static_cast<double>(plan_.value); };
    if (!open()) return;
    const std::vector<double> use = prices_->edge_use();
    if (neighbours_.empty()) neighbours_ = nearest_demands(network_, kRegionDemands);
    for (const EdgeId edge : half_used(use)) {
        if (closed() || !open() || out_of_time()) return;
        plan_time_.of(clock_, [&] { try_choice(edge, use); });
    }
}

/// Edges that the flows use in part, those first where most opening cost is at stake.
std::vector<EdgeId> SolveRun::half_used(const std::vector<double>& use) const {
    std::vector<EdgeId> edges;
    for (std::size_t e = 0; e < use.size(); ++e) {
        if (use[e] > kUsedInPart && use[e] < 1.0 - kUsedInPart) edges.push_back(static_cast<EdgeId>(e));
    }
    std::ranges::stable_sort(edges, std::greater<>(),
                             [&](EdgeId e) { return std::min(use[e], 1.0 - use[e]) * network_.opening[e]; });
    edges.resize(std::min(edges.size(), kChoices));
    return edges;
}

/// Trees along the flows as if the edge cost next to nothing, and as if it cost many times what it does.
void SolveRun::try_choice(EdgeId edge, const std::vector<double>& use) {
    constexpr double many_times = 50.0;
    std::array<std::optional<TreeFound>, 4> found;
    team_.run(found.size(), 1, [&](std::size_t task, std::size_t) {
        std::vector<double> chosen = use;
        chosen[edge] = task < 2 ? 1.0 : -many_times;
        TreeFound tree = tree_along(chosen, kDiscounts.front(), task % 2 == 0 ? nearest_first : heaviest_first);
        improve_regions(chosen, tree);
        found[task] = std::move(tree);
    });
    for (auto& tree : found)
        offer(std::move(*tree));
    ++plan_rounds_;
}

std::vector<double> SolveRun::edge_use() const {
    std::vector<double> use(problem_.edges.size(), 0.0);
    const std::vector<double> of_small = prices_->edge_use();
    for (std::size_t e = 0; e < of_small.size(); ++e) {
        for (const EdgeId edge : edges_of(small_.way_back, static_cast<EdgeId>(e)))
            use[edge] = of_small[e];
    }
    return use;
}

SharedCostCertificate SolveRun::certificate() {
    prices_->finish();
    SharedCostCertificate certificate;
    certificate.parts = parts_for(static_cast<double>(plan_.value));
    const auto write = [&](const PursePrices& prices) {
        return expanded(small_.way_back, rounded(network_, small_.problem, prices, certificate.parts),
                        certificate.parts);
    };
    certificate.prices = write(prices_->best_prices());
    for (const PursePrices& prices : prices_->dropping_prices())
        certificate.more_prices.push_back(write(prices));
    return certificate;
}

}  // namespace spadework::graph
