#include "graph/two_level_bound.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "graph/shared_cost_solver.hpp"
#include "graph/two_level_even.hpp"
#include "graph/two_level_prices.hpp"
#include "graph/two_level_proof.hpp"
#include "graph/two_level_sets.hpp"
#include "graph/two_level_site_ascent.hpp"

namespace spadework::graph::two_level {

using pair_routes::Network;

namespace {

constexpr double kMostSecondsForFirstPrices = 5.0;  ///< Far more than usual sites take, also beside other work.
constexpr double kFirstGap = 1e-4;                  ///< Between them and plans for joining alone, ...
constexpr double kFirstGapOfMany = 3e-3;            ///< ... where closer ones would take as long as many passes.
constexpr std::size_t kQuick = 200'000;             ///< Edges times demands.
constexpr double kSmallestFactor = 0.02;            ///< Steps smaller than this no longer raise the bound.

/// Prices that nearly prove the cheapest joining of the demands to the source, each paying a part of its service charge
/// (a quarter does well on generated site maps).
PriceTable first_prices(const TwoLevelProblem& problem, const SearchField& field, const BoundEffort& effort) {
    SharedCostProblem joined{problem.vertex_count, problem.edges, {}, {{problem.source, 0}}};
    for (const TwoLevelDemand& d : problem.demands)
        joined.demands.push_back({d.at, d.weight / 4, d.multiplicity / 4});
    SolveLimits limits;
    limits.seconds = std::min(kMostSecondsForFirstPrices, effort.seconds / 4);
    const bool quick = problem.edges.size() * problem.demands.size() < kQuick;
    limits.target_gap = quick ? kFirstGap : kFirstGapOfMany;
    limits.threads = effort.threads;
    const SharedCostCertificate paid = solve(joined, limits).certificate;
    const double scale = static_cast<double>(field.relaxation().parts) / static_cast<double>(paid.parts);
    PriceTable prices(problem.demands.size(), std::vector<float>(field.purse_count(), 0.0F));
    for (std::size_t d = 0; d < paid.prices.size(); ++d) {
        for (const EdgePrice& p : paid.prices[d]) {
            const Purse purse = 2 * static_cast<Purse>(p.edge) + (p.backwards ? 1 : 0);
            prices[d][purse] += static_cast<float>(static_cast<double>(p.price) * scale);
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

/// What each purse holds: an arc its edge's opening cost, a site what it costs at least and the toll.
std::vector<double> rooms(const Relaxation& relaxation, Cost toll) {
    std::vector<double> rooms;
    for (const Cost opening : relaxation.opening)
        rooms.insert(rooms.end(), 2, static_cast<double>(opening));
    for (const RelaxedSite& site : relaxation.sites)
        rooms.push_back(static_cast<double>(site.opening) + static_cast<double>(toll));
    return rooms;
}

double paid_on(const std::vector<PurseUse>& way, const std::vector<float>& prices) {
    double sum = 0.0;
    for (const PurseUse& use : way)
        sum += static_cast<double>(prices[use.purse]);
    return sum;
}

}  // namespace

BoundRun::BoundRun(const TwoLevelProblem& problem, const Network& network, const TwoLevelPlan& plan, Cost toll,
                   const BoundEffort& effort)
    : network_(network),
      team_(threads_worth_waking(effort.threads, problem.demands.size(), 10 * problem.edges.size())),
      plain_(plain_relaxation(problem, network, plan)),
      relaxation_(even_relaxation(problem, network, plan)),
      field_(relaxation_, network),
      searches_(team_.size(), DemandSearch(field_)),
      beside_prices_(problem.demands.size(), std::numeric_limits<double>::infinity()),
      toll_(toll * relaxation_.parts),
      descent_(std::make_unique<PriceDescent>(rooms(relaxation_, toll_), problem.demands.size(), team_)) {
    PriceTable first = first_prices(problem, field_, effort);
    set_site_prices(field_, network, static_cast<double>(toll_), first);
    descent_->start(std::move(first));
}

/// Finds every demand's cheapest way under the present prices, and what they are worth together.
double BoundRun::search_all() {
    std::vector<double> values(relaxation_.demands.size());
    team_.run(values.size(), 2, [&](std::size_t d, std::size_t worker) {
        DemandSearch& search = searches_[worker];
        const std::vector<float>& prices = descent_->prices()[d];
        std::vector<PurseUse>& way = descent_->ways()[d];
        const double paid = paid_on(way, prices);
        values[d] = search.find(relaxation_.demands[d], prices.data(), beside_prices_[d] + paid);
        way.clear();
        for (const Purse p : search.used)
            way.push_back({p});
        beside_prices_[d] = values[d] - paid_on(way, prices);
    });
    const double tolls = static_cast<double>(toll_) * relaxation_.most_sites;
    return std::accumulate(values.begin(), values.end(), static_cast<double>(relaxation_.constant) - tolls);
}

bool BoundRun::pass(Cost target) {
    descent_->judge(search_all());
    descent_->step(static_cast<double>(target) * static_cast<double>(relaxation_.parts));
    return descent_->factor() > kSmallestFactor;
}

double BoundRun::guess() const {
    return descent_->best_bound() / static_cast<double>(relaxation_.parts);
}

std::vector<std::int32_t> BoundRun::sites_most_used(const TwoLevelProblem& problem, std::size_t count) const {
    std::vector<std::pair<double, std::int32_t>> order;  // By use, its sign turned: the most used first.
    Purse purse = field_.first_site();
    for (std::size_t s = 0; s < problem.sites.size(); ++s) {
        if (relaxation_.source_length[problem.sites[s].at] == kLargestCost) continue;
        order.emplace_back(-descent_->use_of(purse++), static_cast<std::int32_t>(s));
    }
    std::ranges::sort(order);
    std::vector<std::int32_t> sites;
    for (std::size_t k = 0; k < std::min(count, order.size()); ++k)
        sites.push_back(order[k].second);
    std::ranges::sort(sites);
    return sites;
}

std::optional<SiteSets> BoundRun::site_sets(const TwoLevelProblem& problem) {
    const auto shares = even_shares(problem);
    if (!shares) return std::nullopt;
    return SiteSets::make(problem, network_, plain_, *shares, team_);
}

Cost BoundRun::prove() {
    const PriceTable& prices = descent_->best_prices();
    const Cost even = bound_from_prices(relaxation_, network_, prices, toll_, team_);
    const bool quick = network_.edges.size() * relaxation_.demands.size() < kQuick;
    if (!relaxation_.in_trees || !quick) return even;
    return std::max(even, bound_from_prices(plain_, network_, prices, toll_, team_));
}

}  // namespace spadework::graph::two_level
