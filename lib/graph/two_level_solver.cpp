#include "graph/two_level_solver.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "graph/passing_vertices.hpp"
#include "graph/two_level_bound.hpp"
#include "graph/two_level_search.hpp"
#include "graph/two_level_single.hpp"

namespace spadework::graph {

namespace {

using two_level::BoundRun;
using two_level::Layout;
using two_level::Search;

constexpr int kMostPasses = 280;
constexpr int kPassesBetweenPlans = 20;
constexpr int kPassesBetweenFirstPlans = 12;  ///< The same before sets are looked at.
constexpr int kPassesBeforeSets = 40;         ///< Where sets of sites can be looked at one by one.
constexpr int kPassesOverSets = 170;
constexpr int kPassesBetweenSetPlans = 10;
constexpr std::size_t kPassesWorthwhile = 30;  ///< So many passes over sets are worth their time ...
constexpr double kGainWorthwhile = 2e-4;       ///< ... where together they raise the bound by this part.
constexpr int kPassesAProofTakes = 5;          ///< Roughly, on large networks.
constexpr std::size_t kSetsPlannedAtOnce = 4;
constexpr std::size_t kMostSetsPlanned = 80;
constexpr std::size_t kMostNearBest = 24;
constexpr double kNearBest = 0.01;                ///< Of the best plan's value.
constexpr std::size_t kQuickExchanges = 100'000;  ///< Edges times demands of problems where sites are exchanged.
constexpr double kTimeForBound = 0.6;             ///< Share of the time that no more first plans are begun in.

/// Tells whether the time left is enough for so many more passes like those before.
class PassClock {
public:
    explicit PassClock(const pair_routes::StopRule& stop) : stop_(stop), began_with_(stop.seconds_left()) {}

    bool time_for(int passes) {
        ++done_;
        return stop_.seconds_left() > (began_with_ - stop_.seconds_left()) / done_ * passes;
    }

private:
    const pair_routes::StopRule& stop_;
    double began_with_;
    int done_ = 0;
};

/// Plans and bound of one call, from first plans to proof.
class SolveTwoLevel {
public:
    SolveTwoLevel(const TwoLevelProblem& problem, const SolveLimits& limits,
                  const std::vector<TwoLevelStart>& starts = {})
        : problem_(problem), limits_(limits), stop_(limits.seconds, limits.progress), search_(problem, stop_) {
        fewest_ = std::max(problem.fewest_sites, 0);
        const auto sites = static_cast<std::int64_t>(problem.sites.size());
        most_ = static_cast<std::int32_t>(std::min<std::int64_t>(problem.most_sites, sites));
        search_.begin_from(starts);
    }

    TwoLevelSolution run() {
        if (fewest_ > most_) return {};
        solution_.best_by_count.resize(static_cast<std::size_t>(most_) + 1);
        if (search_.possible()) first_plans();
        if (solution_.plan) exchange_sites();
        if (!solution_.plan) return solution_;
        if (two_level::is_single(problem_)) {
            solve_single();
        } else if (limits_.target_gap < 1.0) {
            raise_bound();
        }
        solution_.interrupted = stop_.reached();
        return solution_;
    }

private:
    void first_plans() {
        for (std::int32_t count = fewest_; count <= most_; ++count) {
            if (solution_.plan && stop_.seconds_left() < limits_.seconds * kTimeForBound) return;
            offer(search_.with_sites(count));
        }
    }

    void offer(const std::optional<Layout>& layout) {
        if (!layout) return;
        if (offer(plan_from(problem_, search_.network(), search_.feeders(), *layout))) best_ = *layout;
    }

    /// Exchanges sites of the best layout while that pays.
    void exchange_sites() {
        if (problem_.edges.size() * problem_.demands.size() > kQuickExchanges) return;
        while (const auto better = search_.with_another_site(best_)) {
            const Cost before = solution_.plan->value;
            offer(better);
            if (solution_.plan->value >= before) return;
        }
    }

    /// Keeps the cheapest plans that differ in value and are near the best.
    void keep_near_best(const TwoLevelPlan& plan) {
        std::vector<TwoLevelPlan>& kept = solution_.near_best;
        const auto cheaper = [](const TwoLevelPlan& a, const TwoLevelPlan& b) { return a.value < b.value; };
        const auto place = std::lower_bound(kept.begin(), kept.end(), plan, cheaper);
        if (place != kept.end() && place->value == plan.value) return;
        kept.insert(place, plan);
        const double most =
            static_cast<double>(kept.front().value) + kNearBest * std::abs(static_cast<double>(kept.front().value));
        while (kept.size() > kMostNearBest || static_cast<double>(kept.back().value) > most)
            kept.pop_back();
    }

    /// True when the plan is the best so far.
    bool offer(const std::optional<TwoLevelPlan>& plan) {
        if (!plan) return false;
        keep_near_best(*plan);
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
        BoundRun bound(problem_, search_.network(), *solution_.plan, toll(), {stop_.seconds_left(), limits_.threads});
        auto sets = bound.site_sets(problem_);
        const int passes = sets ? kPassesBeforeSets : kMostPasses;
        const int between = sets ? kPassesBetweenFirstPlans : kPassesBetweenPlans;
        PassClock clock(stop_);
        for (int pass = 1; pass <= passes; ++pass) {
            const bool more = bound.pass(solution_.plan->value);
            if (!more || near_enough(bound.guess()) || stop_.reached()) break;
            if (!clock.time_for(kPassesAProofTakes)) break;
            if (pass % between == 0) plans_from_bound(bound, sets.has_value(), pass / between);
        }
        if (sets) {
            look_at_sets(*sets, bound.descent());
        } else {
            solution_.bound = bound.prove();
        }
        tell();
    }

    /// Raises the bound set by set of sites, and looks for plans where it is lowest.
    void look_at_sets(two_level::SiteSets& sets, const two_level::PriceDescent& from) {
        sets.start(from);
        PassClock clock(stop_);
        std::vector<double> bounds;
        for (int pass = 1; pass <= kPassesOverSets; ++pass) {
            const bool more = sets.pass(solution_.plan->value);
            bounds.push_back(static_cast<double>(sets.bound()));
            if (!more || near_enough(bounds.back()) || stop_.reached()) break;
            if (!clock.time_for(1) || !gaining(bounds)) break;
            if (pass % kPassesBetweenSetPlans == 0) {
                plans_from_use(sets.edge_use(), sets.lowest_set(), pass / kPassesBetweenSetPlans);
                plans_of_sets(sets, pass / kPassesBetweenSetPlans);
            }
        }
        solution_.bound = sets.bound();
        solution_.certificate = sets.certificate();
    }

    /// Whether the bound has risen by so much lately that more passes are worth their time.
    [[nodiscard]] bool gaining(const std::vector<double>& bounds) const {
        if (bounds.size() <= kPassesWorthwhile) return true;
        const double gain = bounds.back() - bounds[bounds.size() - 1 - kPassesWorthwhile];
        return gain >= kGainWorthwhile * std::abs(static_cast<double>(solution_.plan->value));
    }

    [[nodiscard]] bool near_enough(double bound) const {
        const auto value = static_cast<double>(solution_.plan->value);
        return value - bound <= limits_.target_gap * std::abs(value);
    }

    /// Plans with exactly the sites of sets that lie lowest, each set once.
    void plans_of_sets(const two_level::SiteSets& sets, int round) {
        std::vector<std::vector<std::int32_t>> next;
        for (const std::vector<std::int32_t>& open : sets.lowest_sets(kMostSetsPlanned)) {
            if (next.size() == kSetsPlannedAtOnce) break;
            if (planned_.insert(open).second) next.push_back(open);
        }
        for (const Layout& layout : search_.from_openings_at(discounted(sets.edge_use(), round), next))
            offer(layout);
    }

    /// Plans from the best plan's sites and, where no sets of sites are looked at later, from those that the bound
    /// uses.
    void plans_from_bound(const BoundRun& bound, bool sets_follow, int round) {
        const std::vector<double> use = bound.edge_use();
        plans_from_use(use, best_.siting.open, round);
        if (!sets_follow) plans_from_use(use, bound.sites_most_used(problem_, best_.siting.open.size()), round);
    }

    /// New plans where edges are the cheaper to open the more the bound uses them, with the given sites to begin with.
    void plans_from_use(const std::vector<double>& use, const std::vector<std::int32_t>& open, int round) {
        const Cost before = solution_.plan->value;
        offer(search_.from_openings(discounted(use, round), static_cast<std::int32_t>(open.size()), open));
        if (solution_.plan->value < before) exchange_sites();
    }

    /// Opening costs less what the bound uses of the edges, by one of a few discounts.
    [[nodiscard]] std::vector<Cost> discounted(const std::vector<double>& use, int round) const {
        static constexpr std::array<double, 3> kDiscounts{0.9, 0.7, 0.97};
        const double discount = kDiscounts[static_cast<std::size_t>(round) % kDiscounts.size()];
        std::vector<Cost> opening;
        for (std::size_t e = 0; e < use.size(); ++e) {
            const double share = 1.0 - discount * std::min(use[e], 1.0);
            opening.push_back(static_cast<Cost>(static_cast<double>(problem_.edges[e].opening) * share));
        }
        return opening;
    }

    const TwoLevelProblem& problem_;
    const SolveLimits& limits_;
    pair_routes::StopRule stop_;
    Search search_;
    std::int32_t fewest_ = 0;
    std::int32_t most_ = 0;
    TwoLevelSolution solution_;
    Layout best_;
    std::set<std::vector<std::int32_t>> planned_;  ///< Sets of sites looked at by plans_of_sets().
};

JoinedNetwork joined_network_of(const TwoLevelProblem& problem) {
    std::vector<char> kept(static_cast<std::size_t>(problem.vertex_count), 0);
    kept[problem.source] = 1;
    for (const TwoLevelDemand& d : problem.demands)
        kept[d.at] = 1;
    for (const Site& s : problem.sites)
        kept[s.at] = 1;
    return without_passing_vertices(problem.vertex_count, problem.edges, kept);
}

TwoLevelProblem on_joined(const JoinedNetwork& joined, TwoLevelProblem problem) {
    problem.vertex_count = static_cast<VertexId>(joined.vertices.size());
    problem.edges = joined.edges;
    problem.source = joined.number[problem.source];
    for (TwoLevelDemand& d : problem.demands)
        d.at = joined.number[d.at];
    for (Site& s : problem.sites)
        s.at = joined.number[s.at];
    return problem;
}

/// Starts in edges of the joined network: those whose chains are among the edges.
std::vector<TwoLevelStart> joined_starts(const JoinedNetwork& joined, const TwoLevelProblem& problem,
                                         std::vector<TwoLevelStart> starts) {
    for (TwoLevelStart& start : starts) {
        std::vector<char> among(problem.edges.size(), 0);
        for (const EdgeId e : start.edges)
            among[e] = 1;
        start.edges.clear();
        for (std::size_t e = 0; e < joined.chains.size(); ++e) {
            const auto is_among = [&among](EdgeId original) { return among[original] != 0; };
            if (std::ranges::all_of(joined.chains[e], is_among)) start.edges.push_back(static_cast<EdgeId>(e));
        }
    }
    return starts;
}

/// Prices of chains shared out among their edges, each edge's until its opening cost is spent.
EdgePriceSet expanded(const JoinedNetwork& joined, const TwoLevelProblem& problem, const EdgePriceSet& prices,
                      Cost parts) {
    std::vector<std::vector<Cost>> left;  // By arc of the joined network: what is left of each edge of its chain.
    for (const std::vector<EdgeId>& chain : joined.chains) {
        std::vector<Cost> openings;
        for (const EdgeId e : chain)
            openings.push_back(problem.edges[e].opening * parts);
        left.insert(left.end(), 2, openings);
    }
    EdgePriceSet original(prices.size());
    for (std::size_t d = 0; d < prices.size(); ++d) {
        for (const EdgePrice& p : prices[d]) {
            const std::vector<EdgeId>& chain = joined.chains[p.edge];
            std::vector<Cost>& room = left[2 * static_cast<std::size_t>(p.edge) + (p.backwards ? 1 : 0)];
            Cost price = p.price;
            for (std::size_t k = 0; k < chain.size() && price > 0; ++k) {
                const Cost here = std::min(price, room[k]);
                room[k] -= here;
                price -= here;
                if (here > 0) original[d].push_back({chain[k], here, p.backwards != (joined.against[p.edge][k] != 0)});
            }
        }
    }
    return original;
}

/// The plan for the small problem with its paths as they run in the original network.
void expand(const JoinedNetwork& joined, const TwoLevelProblem& small, TwoLevelPlan& plan) {
    for (TwoLevelPlan::OpenSite& site : plan.open)
        site.feeder = joined.expanded(site.feeder, small.source);
    for (std::size_t d = 0; d < plan.paths.size(); ++d) {
        const std::int32_t by = plan.served_by[d];
        const VertexId from = by < 0 ? small.source : small.sites[plan.open[by].site].at;
        plan.paths[d] = joined.expanded(plan.paths[d], from);
    }
}

}  // namespace

TwoLevelStart start_from(const TwoLevelPlan& plan) {
    TwoLevelStart start;
    for (const TwoLevelPlan::OpenSite& site : plan.open) {
        start.open.push_back(site.site);
        start.edges.insert(start.edges.end(), site.feeder.begin(), site.feeder.end());
    }
    for (const std::vector<EdgeId>& path : plan.paths)
        start.edges.insert(start.edges.end(), path.begin(), path.end());
    std::sort(start.edges.begin(), start.edges.end());
    start.edges.erase(std::unique(start.edges.begin(), start.edges.end()), start.edges.end());
    return start;
}

TwoLevelSolution solve(const TwoLevelProblem& problem, const SolveLimits& limits,
                       const std::vector<TwoLevelStart>& starts) {
    if (!two_level::well_formed(problem)) return {};
    // The single-root solver leaves out what it can by itself, and its prices are for the edges as they are.
    if (two_level::is_single(problem)) return SolveTwoLevel(problem, limits).run();
    const JoinedNetwork joined = joined_network_of(problem);
    const TwoLevelProblem small = on_joined(joined, problem);
    TwoLevelSolution solution = SolveTwoLevel(small, limits, joined_starts(joined, problem, starts)).run();
    if (solution.plan) expand(joined, small, *solution.plan);
    for (auto& plan : solution.best_by_count) {
        if (plan) expand(joined, small, *plan);
    }
    for (TwoLevelPlan& plan : solution.near_best)
        expand(joined, small, plan);
    if (solution.certificate) {
        for (EdgePriceSet& prices : solution.certificate->prices)
            prices = expanded(joined, problem, prices, solution.certificate->parts);
    }
    return solution;
}

}  // namespace spadework::graph
