#include "graph/two_level_bound.hpp"

#include <algorithm>
#include <cmath>

#include "graph/dual_ascent.hpp"
#include "graph/two_level_prices.hpp"
#include "graph/two_level_proof.hpp"
#include "graph/two_level_site_ascent.hpp"

namespace spadework::graph::two_level {

using pair_routes::Network;

namespace {

constexpr int kMostPasses = 2000;
constexpr double kSmallestFactor = 0.02;  ///< Steps smaller than this no longer raise the bound.

/// Prices that a dual ascent finds for joining the demands to the source, each paying its service charge.
PriceTable first_prices(const TwoLevelProblem& problem, const SearchField& field) {
    const Cost parts = field.relaxation().parts;
    SharedCostProblem joined{problem.vertex_count, problem.edges, {}, {{problem.source, 0}}};
    for (const TwoLevelDemand& d : problem.demands)
        joined.demands.push_back({d.at, d.weight, d.multiplicity});
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

std::vector<FeederUse> uses_in(const TwoLevelProblem& problem, const TwoLevelPlan& plan) {
    std::vector<FeederUse> uses(plan.open.size());
    for (std::size_t d = 0; d < plan.served_by.size(); ++d) {
        if (plan.served_by[d] >= 0) uses[plan.served_by[d]].units += problem.demands[d].units;
    }
    for (std::size_t k = 0; k < plan.open.size(); ++k) {
        for (const EdgeId e : plan.open[k].feeder) {
            uses[k].length += problem.edges[e].length;
            uses[k].passage += problem.edges[e].passage;
        }
    }
    return uses;
}

}  // namespace

Cost lower_bound(const TwoLevelProblem& problem, const TwoLevelPlan& plan, Cost toll, const BoundLimits& limits) {
    const Network network(problem.vertex_count, problem.edges);
    const Relaxation relaxation = relaxed(problem, network, uses_in(problem, plan));
    const SearchField field(relaxation, network);
    WorkerTeam team(limits.threads);
    const auto toll_in_parts = static_cast<Cost>(toll * relaxation.parts);
    PriceDescent descent(field, team, static_cast<double>(toll_in_parts));
    PriceTable first = first_prices(problem, field);
    set_site_prices(field, network, static_cast<double>(toll_in_parts), first);
    descent.start(std::move(first));
    const double parts = static_cast<double>(relaxation.parts);
    const double target = static_cast<double>(plan.value) * parts;
    const double enough = static_cast<double>(limits.enough) * parts;
    for (int pass = 0; pass < kMostPasses && descent.factor() > kSmallestFactor; ++pass) {
        descent.search_all();
        if (descent.best_bound() >= enough || limits.stop->reached()) break;
        descent.step(target);
    }
    return bound_from_prices(relaxation, network, descent.best_prices(), toll_in_parts, team);
}

}  // namespace spadework::graph::two_level
