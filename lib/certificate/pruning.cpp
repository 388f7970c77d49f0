#include "certificate/pruning.hpp"

#include <algorithm>
#include <optional>
#include <set>
#include <utility>

#include "certificate/priced_bound.hpp"

namespace spadework::certificate {

namespace {

/// One set of prices, or all parts that plans are split into, and the places for which it proves the bound.
struct PricedSet {
    std::size_t evidence = 0;
    std::optional<std::size_t> set;  ///< Nothing for the parts.
    std::set<PlaceIndex> settles;
};

/// What of a piece of evidence stays.
struct Kept {
    std::vector<graph::EdgePriceSet> sets;
    std::vector<graph::PartProof> splits;
};

RoutesEvidence with(const RoutesEvidence& evidence, Kept kept) {
    RoutesEvidence some = evidence;
    some.prices = std::move(kept.sets);
    some.splits = std::move(kept.splits);
    return some;
}

Kept of_set(const RoutesEvidence& evidence, const std::optional<std::size_t>& set) {
    if (set) return {{evidence.prices[*set]}, {}};
    return {{}, evidence.splits};
}

std::vector<PricedSet> priced_sets(const Scenario& scenario, const BoundCertificate& proof, Money direct_bound) {
    std::vector<PricedSet> all;
    for (std::size_t e = 0; e < proof.routes.size(); ++e) {
        const RoutesEvidence& evidence = *proof.routes[e];
        std::vector<std::optional<std::size_t>> sets(evidence.splits.empty() ? 0 : 1);
        for (std::size_t s = 0; s < evidence.prices.size(); ++s)
            sets.emplace_back(s);
        for (const auto& set : sets) {
            PricedSet one{e, set, {}};
            const auto bounds = direct_bounds(scenario, with(evidence, of_set(evidence, set)));
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
    std::vector<Kept> kept(proof.routes.size());
    while (!open.empty()) {
        const auto best = std::max_element(all.begin(), all.end(), [&](const PricedSet& a, const PricedSet& b) {
            return count_new(a, open) < count_new(b, open);
        });
        if (best == all.end() || count_new(*best, open) == 0) return proof;
        for (const PlaceIndex place : best->settles)
            open.erase(place);
        const RoutesEvidence& evidence = *proof.routes[best->evidence];
        Kept& more = kept[best->evidence];
        if (best->set) more.sets.push_back(evidence.prices[*best->set]);
        if (!best->set) more.splits = evidence.splits;
    }
    BoundCertificate result;
    result.contained_in = proof.contained_in;
    result.chains = proof.chains;
    if (proof.trunks) result.trunks = pruned(scenario, *proof.trunks, direct_bound);
    for (std::size_t e = 0; e < kept.size(); ++e) {
        if (kept[e].sets.empty() && kept[e].splits.empty()) continue;
        result.routes.push_back(std::make_shared<const RoutesEvidence>(with(*proof.routes[e], std::move(kept[e]))));
    }
    return result;
}

}  // namespace spadework::certificate
