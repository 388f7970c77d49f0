#include "graph/two_level_bound.hpp"

#include <algorithm>
#include <cmath>

#include "graph/dual_ascent.hpp"
#include "graph/two_level_even.hpp"
#include "graph/two_level_prices.hpp"
#include "graph/two_level_proof.hpp"
#include "graph/two_level_site_ascent.hpp"

namespace spadework::graph::two_level {

using pair_routes::Network;

namespace {

constexpr double kSmallestFactor = 0.02;  ///< Steps smaller than this no longer raise the bound.

/// Prices that a dual ascent finds for joining the demands to the source, each paying a part of its
/// service charge (a quarter does best on generated site maps).
PriceTable first_prices(const TwoLevelProblem& problem, const SearchField& field) {
    const Cost parts = field.relaxation().parts;
    SharedCostProblem joined{problem.vertex_count, problem.edges, {}, {{problem.source, 0}}};
    for (const TwoLevelDemand& d : problem.demands)
        joined.demands.push_back({d.at, d.weight / 4, d.multiplicity / 4});
    const SearchNetwork network(joined, true);
    const auto paid = dual_ascent(network, problem.source, shortest_reach(network, {problem.source}));
    PriceTable prices(problem.demands.size(), std::vector<float>(field.purse_count(), 0.0F));
    for (std::size_t d = 0; d < paid.size(); ++d) {
        for (const ArcPrice& p : paid[d].prices) {
            prices[d][static_cast<Purse>(p.arc)] += static_cast<float>(p.price * static_cast<double>(parts));
        }
    }
    return prices;
}

/// Units that count for a demand: all of them, or as many as go with its charge in the even relaxation.
double counted_units(const TwoLevelProblem& problem, const std::optional<EvenShares>& shares, std::size_t demand) {
    if (!shares) return static_cast<double>(problem.demands[demand].units);
    return static_cast<double>(shares->multiple[demand]) * static_cast<double>(shares->units) /
           static_cast<double>(shares->per_multiple);
}

std::vector<FeederUse> uses_in(const TwoLevelProblem& problem, const TwoLevelPlan& plan,
                               const std::optional<EvenShares>& shares) {
    std::vector<FeederUse> uses(plan.open.size());
    std::vector<double> units(plan.open.size(), 0.0);
    for (std::size_t d = 0; d < plan.served_by.size(); ++d) {
        if (plan.served_by[d] >= 0) units[plan.served_by[d]] += counted_units(problem, shares, d);
    }
    for (std::size_t k = 0; k < plan.open.size(); ++k) {
        uses[k].units = static_cast<std::int64_t>(units[k]);
        for (const EdgeId e : plan.open[k].feeder) {
            uses[k].length += problem.edges[e].length;
            uses[k].passage += problem.edges[e].passage;
        }
    }
    return uses;
}

Relaxation plain_relaxation(const TwoLevelProblem& problem, const Network& network, const TwoLevelPlan& plan) {
    return relaxed(problem, network, uses_in(problem, plan, std::nullopt));
}

Relaxation even_relaxation(const TwoLevelProblem& problem, const Network& network, const TwoLevelPlan& plan) {
    const auto shares = even_shares(problem);
    Relaxation relaxation = relaxed(problem, network, uses_in(problem, plan, shares));
    return shares ? made_even(std::move(relaxation), *shares) : relaxation;
}

}  // namespace

BoundRun::BoundRun(const TwoLevelProblem& problem, const Network& network, const TwoLevelPlan& plan, Cost toll,
                   int threads)
    : network_(network),
      team_(threads_worth_waking(threads, problem.demands.size(), 10 * problem.edges.size())),
      plain_(plain_relaxation(problem, network, plan)),
      relaxation_(even_relaxation(problem, network, plan)),
      field_(relaxation_, network),
      toll_(toll * relaxation_.parts),
      descent_(std::make_unique<PriceDescent>(field_, team_, static_cast<double>(toll_))) {
    PriceTable first = first_prices(problem, field_);
    set_site_prices(field_, network, static_cast<double>(toll_), first);
    descent_->start(std::move(first));
}

bool BoundRun::pass(Cost target) {
    descent_->search_all();
    descent_->step(static_cast<double>(target) * static_cast<double>(relaxation_.parts));
    return descent_->factor() > kSmallestFactor;
}

double BoundRun::guess() const {
    return descent_->best_bound() / static_cast<double>(relaxation_.parts);
}

Cost BoundRun::prove() {
    const PriceTable& prices = descent_->best_prices();
    const Cost even = bound_from_prices(relaxation_, network_, prices, toll_, team_);
    if (!relaxation_.in_trees) return even;
    return std::max(even, bound_from_prices(plain_, network_, prices, toll_, team_));
}

}  // namespace spadework::graph::two_level
