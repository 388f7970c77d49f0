#include "graph/two_level_site_set.hpp"

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <numeric>

namespace spadework::graph::two_level {

namespace {

constexpr int kFittings = 8;           ///< In a pass; what sites ask is kept from one to the next.
constexpr double kMostAsked = 0x1p58;  ///< Of all units at all sites together, so that no sum overflows.
constexpr double kFittingDecay = 0.7;  ///< Of the step factor after a fitting that did not raise the bound.
constexpr double kLongestAim = 0.02;   ///< Steps aim no higher above the bound than this share of the target.

}  // namespace

void SiteSet::raise(Cost proved, std::int32_t pass, const std::vector<Cost>& with) {
    if (proved <= bound) return;
    bound = proved;
    proved_in = pass;
    proved_with = with;
}

SetPricing::SetPricing(const TwoLevelProblem& problem, const Relaxation& even, const EvenShares& shares,
                       const FeederTable& feeders, const ServiceTable& service)
    : shares_(shares), feeders_(feeders), service_(service), constant_(even.constant) {
    for (std::size_t d = 0; d < even.demands.size(); ++d) {
        multiples_.push_back(even.demands[d].units);
        units_.push_back(problem.demands[d].units);
        all_by_sites_ = all_by_sites_ && !even.demands[d].may_be_direct;
        exact_shares_ = exact_shares_ && static_cast<WideCost>(problem.demands[d].units) * shares.per_multiple ==
                                             static_cast<WideCost>(shares.multiple[d]) * shares.units;
    }
}

Cost SetPricing::share(Cost ask) const {
    const WideCost product = static_cast<WideCost>(ask) * shares_.units;
    WideCost share = product / shares_.per_multiple;
    if (share * shares_.per_multiple > product) --share;
    return static_cast<Cost>(share);
}

Cost SetPricing::least_ask(Cost ask) const {
    if (shares_.units == 0) return ask;
    const WideCost product = static_cast<WideCost>(share(ask)) * shares_.per_multiple;
    WideCost least = product / shares_.units;
    if (least * shares_.units < product) ++least;
    return static_cast<Cost>(least);
}

Cost SetPricing::least_of_feeder(std::int32_t site, Cost ask) const {
    Cost least = kLargestCost;
    for (std::int64_t u = 0; u <= feeders_.steps() && feeders_.cost_without_dues(site, u) < kLargestCost; ++u)
        least = std::min(least, feeders_.cost_without_dues(site, u) - ask * u * feeders_.units_a_step());
    return least;
}

Cost SetPricing::least_of_feeder(std::size_t count, std::int32_t site, Cost ask, FeederTable::Range loads) const {
    Cost least = kLargestCost;
    for (std::int64_t u = loads.least; u <= loads.most && feeders_.cost(count, site, u) < kLargestCost; ++u)
        least = std::min(least, feeders_.cost(count, site, u) - ask * u * feeders_.units_a_step());
    return least;
}

/// The demands' cheapest charges together. `serve(d, k)` is told of every demand the position of the site that serves
/// it so; the set's size for the source.
template <class Serve>
Cost SetPricing::served(const SiteSet& set, Serve serve) const {
    struct Server {
        const Cost* priced;  // By demand.
        Cost asked;          // Of a multiple.
    };
    thread_local std::vector<Server> servers;
    servers.clear();
    for (std::size_t k = 0; k < set.sites.size(); ++k)
        servers.push_back({service_.by_demand(set.sites[k]).data(), share(set.asks[k])});
    WideCost sum = constant_;
    for (std::size_t d = 0; d < multiples_.size(); ++d) {
        Cost least = service_.direct()[d];
        std::size_t by = servers.size();
        for (std::size_t k = 0; k < servers.size(); ++k) {
            const Cost here = servers[k].priced[d] + servers[k].asked * multiples_[d];
            by = here < least ? k : by;
            least = std::min(least, here);
        }
        sum += least;
        serve(d, by);
    }
    return saturated(sum);
}

Cost SetPricing::service_of(const SiteSet& set) const {
    return served(set, [](std::size_t, std::size_t) {});
}

Cost SetPricing::rough_bound(const SiteSet& set) const {
    WideCost sum = service_of(set);
    for (std::size_t k = 0; k < set.sites.size(); ++k)
        sum += least_of_feeder(set.sites.size(), set.sites[k], set.asks[k], set.loads[k]);
    return saturated(sum);
}

Cost SetPricing::bound(const SiteSet& set) const {
    const auto split = feeders_.cheapest_split(set.sites, set.asks, set.loads, all_by_sites_);
    if (split.cost == kLargestCost) return kLargestCost;
    return saturated(static_cast<WideCost>(service_of(set)) + split.cost);
}

std::vector<std::vector<EdgeId>> SetPricing::feeder_ways(const SiteSet& set) const {
    std::vector<std::vector<EdgeId>> ways;
    const auto split = feeders_.cheapest_split(set.sites, set.asks, set.loads, all_by_sites_);
    if (split.cost == kLargestCost) return ways;
    for (std::size_t k = 0; k < set.sites.size(); ++k)
        ways.push_back(feeders_.way(set.sites.size(), set.sites[k], split.steps[k]));
    return ways;
}

std::vector<std::size_t> SetPricing::served_by(const SiteSet& set) const {
    std::vector<std::size_t> by(multiples_.size());
    served(set, [&by](std::size_t d, std::size_t k) { by[d] = k; });
    return by;
}

/// What the demands are charged; `units` gets by position what a site serves when every demand goes where it is charged
/// least.
Cost SetPricing::service_of(const SiteSet& set, std::vector<std::int64_t>& units) const {
    units.assign(set.sites.size() + 1, 0);
    const Cost sum = served(set, [&](std::size_t d, std::size_t k) { units[k] += units_[d]; });
    units.pop_back();
    return sum;
}

Cost SetPricing::fit(SiteSet& set, Cost target) const {
    Cost best = std::numeric_limits<Cost>::min();
    std::vector<Cost> best_asks = set.asks;
    double factor = 1.0;
    const auto all_units = static_cast<double>(feeders_.steps() * feeders_.units_a_step());
    const double most_ask = kMostAsked / std::max(all_units * static_cast<double>(set.sites.size()), 1.0);
    std::vector<std::int64_t> units;
    std::vector<double> excess;
    for (int i = 0; i < kFittings; ++i) {
        const auto split = feeders_.cheapest_split(set.sites, set.asks, set.loads, all_by_sites_);
        if (split.cost == kLargestCost) return kLargestCost;
        const Cost bound = saturated(static_cast<WideCost>(service_of(set, units)) + split.cost);
        if (bound > best) {
            best = bound;
            best_asks = set.asks;
        } else {
            factor *= kFittingDecay;
        }
        excess.clear();
        for (std::size_t k = 0; k < units.size(); ++k)
            excess.push_back(static_cast<double>(units[k] - split.steps[k] * feeders_.units_a_step()));
        const double squares = std::inner_product(excess.begin(), excess.end(), excess.begin(), 0.0);
        if (squares <= 0.0 || bound >= target) break;
        const double aim = std::min(static_cast<double>(target) - static_cast<double>(bound),
                                    kLongestAim * std::abs(static_cast<double>(target)));
        for (std::size_t k = 0; k < excess.size(); ++k) {
            const double ask = static_cast<double>(set.asks[k]) + factor * aim / squares * excess[k];
            const double kept = std::clamp(ask, exact_shares_ ? -most_ask : 0.0, most_ask);
            set.asks[k] = least_ask(static_cast<Cost>(kept));
        }
    }
    set.asks = best_asks;
    return best;
}

std::optional<SiteSet> SetPricing::split(SiteSet& set, Cost worth) const {
    const auto cheapest = feeders_.cheapest_split(set.sites, set.asks, set.loads, all_by_sites_);
    if (cheapest.cost == kLargestCost) return std::nullopt;
    std::vector<std::int64_t> units;
    service_of(set, units);
    WideCost lost = -static_cast<WideCost>(cheapest.cost);
    std::size_t widest = 0;
    std::int64_t low = 0;
    std::int64_t high = 0;
    for (std::size_t k = 0; k < units.size(); ++k) {
        const FeederTable::Range loads = set.loads[k];
        const std::int64_t load = std::clamp(units[k] / feeders_.units_a_step(), loads.least, loads.most);
        lost += static_cast<WideCost>(feeders_.cost(set.sites.size(), set.sites[k], load)) -
                static_cast<WideCost>(set.asks[k]) * units[k];
        const auto [least, most] = std::minmax(load, cheapest.steps[k]);
        if (most - least <= high - low) continue;
        widest = k;
        low = least;
        high = most;
    }
    if (low == high || lost < worth) return std::nullopt;
    SiteSet more = set;
    const std::int64_t middle = low + (high - low - 1) / 2;
    set.loads[widest].most = middle;
    more.loads[widest].least = middle + 1;
    return more;
}

}  // namespace spadework::graph::two_level
