#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "certificate/bought_bound.hpp"
#include "certificate/chain_check.hpp"
#include "certificate/figure_check.hpp"
#include "certificate/priced_bound.hpp"
#include "certificate/trunk_check.hpp"
#include "certificate/verification.hpp"

namespace spadework::certificate {

namespace {

/// How cables fan out in a layout whose plans have one place where they do; nothing for other layouts.
std::optional<FanOutFigures> figures_of(const Scenario& scenario, LayoutKind layout) {
    const bool one_trunk =
        layout == LayoutKind::trunk_one || (layout == LayoutKind::trunk && scenario.rules.most_enclosures == 1);
    if (layout == LayoutKind::home_runs) return home_run_figures(scenario);
    if (one_trunk) return one_trunk_figures(scenario);
    return std::nullopt;
}

/// The best bound for each place; a place without way to some building has none, and no plan either.
class PlaceBounds {
public:
    void add(const RoutesEvidence& evidence, const std::vector<std::optional<Money>>& bounds) {
        for (std::size_t r = 0; r < bounds.size(); ++r) {
            Place& place = places_[evidence.roots[r].at];
            place.no_plan = place.no_plan || !bounds[r];
            if (bounds[r]) place.bound = std::max(place.bound.value_or(*bounds[r]), *bounds[r]);
        }
    }

    /// Looks at cables as they are bought for places whose bounds are below what is wanted.
    void raise(const Scenario& scenario, const FanOutFigures& figures, const RoutesEvidence& evidence, Money wanted) {
        for (std::size_t r = 0; r < evidence.roots.size(); ++r) {
            Place& place = places_[evidence.roots[r].at];
            const auto is_short = [&] { return !place.no_plan && place.bound && *place.bound < wanted; };
            for (std::size_t set = 0; set < evidence.prices.size() && is_short(); ++set) {
                const auto bound = bought_bound(scenario, figures, evidence, all_plans(evidence, set), r);
                if (bound) place.bound = std::max(*place.bound, *bound);
            }
            if (!is_short()) continue;
            const auto bound = bought_bound_by_splits(scenario, figures, evidence, r, wanted);
            if (bound) place.bound = std::max(*place.bound, *bound);
        }
    }

    /// The least over the places, or the place for which there is no evidence.
    std::optional<Money> least(const std::vector<PlaceIndex>& all, std::optional<PlaceIndex>& without) const {
        std::optional<Money> least;
        for (const PlaceIndex at : all) {
            const auto place = places_.find(at);
            if (place == places_.end()) {
                without = at;
                return std::nullopt;
            }
            if (place->second.no_plan) continue;
            least = std::min(least.value_or(*place->second.bound), *place->second.bound);
        }
        return least;
    }

private:
    struct Place {
        bool no_plan = false;
        std::optional<Money> bound;
    };
    std::map<PlaceIndex, Place> places_;
};

std::vector<std::string> chain_faults(const Scenario& scenario, const Certificate& certificate,
                                      std::optional<Money>& direct) {
    const bool ring = certificate.layout == LayoutKind::ring;
    if ((!ring && certificate.layout != LayoutKind::daisy_chain) || !certificate.proof.routes.empty()) {
        return {fmt::format("evidence of chains says nothing of {}", id_of(certificate.layout))};
    }
    const ChainEvidence& evidence = *certificate.proof.chains;
    const Chains chains = ring ? Chains::closed : Chains::open;
    std::vector<std::string> faults = chain_figure_faults(scenario, evidence, chains);
    if (!faults.empty()) return faults;
    const std::string prices = chain_price_fault(scenario, evidence, chains);
    if (!prices.empty()) return {prices};
    direct = chain_direct_bound(scenario, evidence, chains);
    return {};
}

std::vector<std::string> trunk_faults(const Scenario& scenario, const Certificate& certificate,
                                      std::optional<Money>& direct) {
    const bool mixed = certificate.layout == LayoutKind::mixed;
    if (!mixed && certificate.layout != LayoutKind::trunk) {
        return {fmt::format("evidence of trunks says nothing of {}", id_of(certificate.layout))};
    }
    const TrunkEvidence& evidence = *certificate.proof.trunks;
    std::vector<std::string> faults = trunk_figure_faults(scenario, evidence, mixed);
    if (!faults.empty()) return faults;
    const std::string prices = trunk_price_fault(scenario, evidence);
    if (!prices.empty()) return {prices};
    direct = trunk_direct_bound(scenario, evidence, mixed);
    if (!direct) return {"some set of places is not bounded, or there are too many to look at one by one"};
    return {};
}

}  // namespace

bool is_impossible(const Scenario& scenario, LayoutKind layout) {
    if (layout == LayoutKind::daisy_chain) return !chains_are_possible(scenario, Chains::open);
    if (layout == LayoutKind::ring) return !chains_are_possible(scenario, Chains::closed);
    if (!home_run_figures(scenario)) return true;  // A building that cannot be lit or served at all.
    return layout == LayoutKind::trunk_one && !one_trunk_figures(scenario);
}

std::vector<std::string> proof_faults(const Scenario& scenario, const Certificate& certificate,
                                      std::optional<Money>& direct) {
    if (certificate.proof.trunks) return trunk_faults(scenario, certificate, direct);
    if (certificate.proof.chains) return chain_faults(scenario, certificate, direct);
    if (certificate.proof.routes.empty()) return {};
    const auto figures = figures_of(scenario, certificate.layout);
    if (!figures) {
        return {fmt::format("evidence of cables that fan out from one place says nothing of {}",
                            id_of(certificate.layout))};
    }
    PlaceBounds places;
    for (const auto& evidence : certificate.proof.routes) {
        std::vector<std::string> faults = figure_faults(scenario, *figures, *evidence);
        const std::string prices = price_fault(scenario, *evidence);
        if (!prices.empty()) faults.push_back(prices);
        if (!faults.empty()) return faults;
        places.add(*evidence, direct_bounds(scenario, *evidence));
    }
    for (const auto& evidence : certificate.proof.routes)
        places.raise(scenario, *figures, *evidence, certificate.direct_bound);
    std::optional<PlaceIndex> without;
    direct = places.least(figures->places, without);
    if (!without) return {};
    return {fmt::format("nothing bounds plans with the enclosure at {}",
                        scenario.places[static_cast<std::size_t>(*without)].id)};
}

}  // namespace spadework::certificate
