#include "certificate/priced_bound.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

#include <fmt/format.h>

#include "certificate/edge_distances.hpp"

namespace spadework::certificate {

namespace {

constexpr Wide most_money = 1'000'000'000'000'000'000;

/// For each demand the group of those that measure paths alike.
std::vector<std::size_t> groups_of(const RoutesEvidence& evidence) {
    const auto no_passage = [](const CertifiedEdge& edge) { return edge.passage == 0; };
    const auto no_length = [](const CertifiedEdge& edge) { return edge.length == 0; };
    const bool one = std::all_of(evidence.edges.begin(), evidence.edges.end(), no_passage) ||
                     std::all_of(evidence.edges.begin(), evidence.edges.end(), no_length);
    std::map<std::pair<graph::Cost, graph::Cost>, std::size_t> known;
    std::vector<std::size_t> groups;
    for (const graph::Demand& demand : evidence.demands) {
        const graph::Cost divisor = std::gcd(demand.weight, demand.multiplicity);
        if (one || divisor == 0) {
            groups.push_back(0);  // Pays nothing for its way, so any group's will do.
            continue;
        }
        const std::pair proportion(demand.weight / divisor, demand.multiplicity / divisor);
        groups.push_back(known.try_emplace(proportion, known.size()).first->second);
    }
    return groups;
}

/// What the demands of one set claim of each edge's opening: over groups, the larger direction's sum.
std::vector<Wide> claimed(const RoutesEvidence& evidence, const graph::EdgePriceSet& set) {
    const std::vector<std::size_t> groups = groups_of(evidence);
    std::map<std::pair<std::size_t, graph::EdgeId>, std::pair<Wide, Wide>> sums;
    for (std::size_t d = 0; d < set.size(); ++d) {
        for (const graph::EdgePrice& price : set[d]) {
            auto& [forwards, backwards] = sums[{groups[d], price.edge}];
            (price.backwards ? backwards : forwards) += price.price;
        }
    }
    std::vector<Wide> claims(evidence.edges.size(), 0);
    for (const auto& [key, sum] : sums)
        claims[static_cast<std::size_t>(key.second)] += std::max(sum.first, sum.second);
    return claims;
}

/// What the demand pays for passing each edge, its prices included, in parts.
DirectedCharges charges_of(const RoutesEvidence& evidence, const graph::Demand& demand,
                           const std::vector<graph::EdgePrice>& prices) {
    DirectedCharges charges;
    for (const CertifiedEdge& edge : evidence.edges) {
        const Wide cable =
            static_cast<Wide>(demand.weight) * edge.length + static_cast<Wide>(demand.multiplicity) * edge.passage;
        charges[0].push_back(std::min(cable, most_charge) * evidence.parts);
    }
    charges[1] = charges[0];
    add_prices(prices, charges);
    return charges;
}

/// Of every plan's cost less its root's, in solver units, a divisor.
Wide common_divisor(const RoutesEvidence& evidence) {
    graph::Cost opening = 0;
    graph::Cost length = 0;
    graph::Cost passage = 0;
    for (const CertifiedEdge& edge : evidence.edges) {
        opening = std::gcd(opening, edge.opening);
        length = std::gcd(length, edge.length);
        passage = std::gcd(passage, edge.passage);
    }
    graph::Cost weight = 0;
    graph::Cost multiplicity = 0;
    for (const graph::Demand& demand : evidence.demands) {
        weight = std::gcd(weight, demand.weight);
        multiplicity = std::gcd(multiplicity, demand.multiplicity);
    }
    const Wide by_length = static_cast<Wide>(weight) * length;
    const Wide by_passage = static_cast<Wide>(multiplicity) * passage;
    if (by_length > most_charge || by_passage > most_charge) return 1;
    const graph::Cost divisor =
        std::gcd(opening, std::gcd(static_cast<graph::Cost>(by_length), static_cast<graph::Cost>(by_passage)));
    return divisor == 0 || divisor > most_charge ? 1 : divisor;
}

/// For each root the best set's sum of distances, in parts; nothing where some demand has no way.
std::vector<std::optional<Wide>> best_sums(const Scenario& scenario, const RoutesEvidence& evidence) {
    const EdgeDistances paths(scenario, evidence.edges);
    std::vector<std::optional<Wide>> best(evidence.roots.size(), Wide{0});
    for (const graph::EdgePriceSet& set : evidence.prices) {
        std::vector<std::optional<Wide>> sums(evidence.roots.size(), Wide{0});
        for (std::size_t d = 0; d < evidence.demands.size(); ++d) {
            const graph::Demand& demand = evidence.demands[d];
            const auto distances = paths.to(demand.at, charges_of(evidence, demand, set[d]));
            for (std::size_t r = 0; r < sums.size(); ++r) {
                const auto& way = distances[static_cast<std::size_t>(evidence.roots[r].at)];
                if (!way) sums[r].reset();
                if (sums[r]) *sums[r] += *way;
            }
        }
        for (std::size_t r = 0; r < sums.size(); ++r) {
            if (!sums[r]) best[r].reset();
            if (best[r]) best[r] = std::max(*best[r], *sums[r]);
        }
    }
    return best;
}

}  // namespace

std::string price_fault(const Scenario& scenario, const RoutesEvidence& evidence) {
    for (const graph::EdgePriceSet& set : evidence.prices) {
        if (set.size() != evidence.demands.size()) {
            return fmt::format("a set of prices is for {} demands, not {}", set.size(), evidence.demands.size());
        }
        const std::vector<Wide> claims = claimed(evidence, set);
        for (std::size_t e = 0; e < claims.size(); ++e) {
            const CertifiedEdge& edge = evidence.edges[e];
            if (claims[e] <= static_cast<Wide>(evidence.parts) * edge.opening) continue;
            return fmt::format("the prices on segment {}, way {}, come to more than its opening of {}",
                               scenario.segments[static_cast<std::size_t>(edge.segment)].id, edge.way, edge.opening);
        }
    }
    return "";
}

std::vector<std::optional<Money>> direct_bounds(const Scenario& scenario, const RoutesEvidence& evidence) {
    Wide rebate = 0;
    for (const CertifiedEdge& edge : evidence.edges)
        rebate += static_cast<Wide>(edge.room_price) * std::max(0, edge.room);
    const Wide step = common_divisor(evidence);
    const Wide unit = step * evidence.parts;
    const std::vector<std::optional<Wide>> sums = best_sums(scenario, evidence);
    std::vector<std::optional<Money>> bounds;
    for (std::size_t r = 0; r < sums.size(); ++r) {
        bounds.emplace_back();
        if (!sums[r]) continue;
        const Wide routes = (*sums[r] + unit - 1) / unit * step + evidence.roots[r].cost - rebate;
        const Wide whole = std::clamp<Wide>(routes, 0, most_money * evidence.units_a_minor) / evidence.units_a_minor;
        const Wide direct = evidence.constant.minor() + whole;
        bounds.back() = Money::from_minor(static_cast<std::int64_t>(std::min(direct, most_money)));
    }
    return bounds;
}

}  // namespace spadework::certificate
