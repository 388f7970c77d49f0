#include "certificate/pruning.hpp"

#include <algorithm>
#include <set>

#include "certificate/priced_bound.hpp"

namespace spadework::certificate {

namespace {

/// One set of prices, and the places for which it proves the bound.
struct PricedSet {
    std::size_t evidence = 0;
    std::size_t set = 0;
    std::set<PlaceIndex> settles;
};

RoutesEvidence with_sets(const RoutesEvidence& evidence, std::vector<graph::EdgePriceSet> sets) {
    RoutesEvidence some = evidence;
    some.prices = std::move(sets);
    return some;
}

std::vector<PricedSet> priced_sets(const Scenario& scenario, const BoundCertificate& proof, Money direct_bound) {
    std::vector<PricedSet> all;
    for (std::size_t e = 0; e < proof.routes.size(); ++e) {
        const RoutesEvidence& evidence = *proof.routes[e];
        for (std::size_t s = 0; s < evidence.prices.size(); ++s) {
            PricedSet one{e, s, {}};
            const auto bounds = direct_bounds(scenario, with_sets(evidence, {evidence.prices[s]}));
            for (std::size_t r = 0; r < bounds.size(); ++r) {
                if (!bounds[r] || *bounds[r] >= direct_bound) one.settles.insert(evidence.roots[r].at);
            }
            all.push_back(std::move(one));
        }
    }
    return all;
}

std::size_t count_new(const PricedSet& one, const std::set<PlaceIndex>& open) {
    return static_cast<std::size_t>(
        std::count_if(one.settles.begin(), one.settles.end(), [&](PlaceIndex place) { return open.contains(place); }));
}

}  // namespace

BoundCertificate pruned(const Scenario& scenario, const BoundCertificate& proof, Money direct_bound) {
    const std::vector<PricedSet> all = priced_sets(scenario, proof, direct_bound);
    std::set<PlaceIndex> open;
    for (const auto& evidence : proof.routes) {
        for (const graph::RootOption& root : evidence->roots)
            open.insert(root.at);
    }
    std::vector<std::vector<graph::EdgePriceSet>> kept(proof.routes.size());
    while (!open.empty()) {
        const auto best = std::max_element(all.begin(), all.end(), [&](const PricedSet& a, const PricedSet& b) {
            return count_new(a, open) < count_new(b, open);
        });
        if (best == all.end() || count_new(*best, open) == 0) return proof;
        for (const PlaceIndex place : best->settles)
            open.erase(place);
        kept[best->evidence].push_back(proof.routes[best->evidence]->prices[best->set]);
    }
    BoundCertificate result;
    result.contained_in = proof.contained_in;
    result.chains = proof.chains;
    if (proof.trunks) result.trunks = pruned(scenario, *proof.trunks, direct_bound);
    for (std::size_t e = 0; e < kept.size(); ++e) {
        if (kept[e].empty()) continue;
        result.routes.push_back(
            std::make_shared<const RoutesEvidence>(with_sets(*proof.routes[e], std::move(kept[e]))));
    }
    return result;
}

}  // namespace spadework::certificate
