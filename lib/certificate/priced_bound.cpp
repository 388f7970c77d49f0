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
                           const std::vector<graph::EdgePrice>& prices, std::int64_t parts) {
    DirectedCharges charges;
    for (const CertifiedEdge& edge : evidence.edges) {
        const Wide cable =
            static_cast<Wide>(demand.weight) * edge.length + static_cast<Wide>(demand.multiplicity) * edge.passage;
        charges[0].push_back(std::min(cable, most_charge) * parts);
    }
    charges[1] = charges[0];
    add_prices(prices, charges);
    return charges;
}

/// Of what every plan costs less its root and the edges that all such plans use, in solver units, a divisor.
Wide common_divisor(const RoutesEvidence& evidence, const PricedPlans& plans) {
    graph::Cost opening = 0;
    graph::Cost length = 0;
    graph::Cost passage = 0;
    for (const graph::Cost one : plans.openings)
        opening = std::gcd(opening, one);
    for (const CertifiedEdge& edge : evidence.edges) {
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

/// For each root the sum of all demands' distances, in parts; nothing where some demand has no way.
std::vector<std::optional<Wide>> sums_of(const Scenario& scenario, const RoutesEvidence& evidence,
                                         const PricedPlans& plans) {
    const EdgeDistances paths(scenario, evidence.edges, plans.closed);
    std::vector<std::optional<Wide>> sums(evidence.roots.size(), Wide{0});
    for (std::size_t d = 0; d < evidence.demands.size(); ++d) {
        const graph::Demand& demand = evidence.demands[d];
        const auto distances = paths.to(demand.at, charges_of(evidence, demand, (*plans.prices)[d], plans.parts));
        for (std::size_t r = 0; r < sums.size(); ++r) {
            const auto& way = distances[static_cast<std::size_t>(evidence.roots[r].at)];
            if (!way) sums[r].reset();
            if (sums[r]) *sums[r] += *way;
        }
    }
    return sums;
}

/// Why the prices of some plans may not be as they are.
std::string fault_of(const Scenario& scenario, const RoutesEvidence& evidence, const PricedPlans& plans) {
    if (plans.prices->size() != evidence.demands.size()) {
        return fmt::format("a set of prices is for {} demands, not {}", plans.prices->size(), evidence.demands.size());
    }
    const std::vector<Wide> claims = claimed(evidence, *plans.prices);
    for (std::size_t e = 0; e < claims.size(); ++e) {
        if (claims[e] <= static_cast<Wide>(plans.parts) * plans.openings[e]) continue;
        const CertifiedEdge& edge = evidence.edges[e];
        return fmt::format("the prices on segment {}, way {}, come to more than its opening of {}",
                           scenario.segments[static_cast<std::size_t>(edge.segment)].id, edge.way, plans.openings[e]);
    }
    return "";
}

}  // namespace

std::string price_fault(const Scenario& scenario, const RoutesEvidence& evidence) {
    std::string fault = split_fault(evidence);
    for (std::size_t set = 0; set < evidence.prices.size() && fault.empty(); ++set)
        fault = fault_of(scenario, evidence, all_plans(evidence, set));
    for (std::size_t part = 0; part < evidence.splits.size() && fault.empty(); ++part)
        fault = fault_of(scenario, evidence, plans_of(evidence, evidence.splits[part]));
    return fault;
}

std::vector<std::optional<Money>> direct_bounds(const Scenario& scenario, const RoutesEvidence& evidence,
                                                const PricedPlans& plans) {
    Wide rebate = 0;
    for (const CertifiedEdge& edge : evidence.edges)
        rebate += static_cast<Wide>(edge.room_price) * std::max(0, edge.room);
    const Wide step = common_divisor(evidence, plans);
    const Wide unit = step * plans.parts;
    const std::vector<std::optional<Wide>> sums = sums_of(scenario, evidence, plans);
    std::vector<std::optional<Money>> bounds;
    for (std::size_t r = 0; r < sums.size(); ++r) {
        bounds.emplace_back();
        if (!sums[r]) continue;
        const Wide routes = (*sums[r] + unit - 1) / unit * step + plans.opened + evidence.roots[r].cost - rebate;
        const Wide whole = std::clamp<Wide>(routes, 0, most_money * evidence.units_a_minor) / evidence.units_a_minor;
        const Wide direct = evidence.constant.minor() + whole;
        bounds.back() = Money::from_minor(static_cast<std::int64_t>(std::min(direct, most_money)));
    }
    return bounds;
}

std::vector<std::optional<Money>> direct_bounds(const Scenario& scenario, const RoutesEvidence& evidence) {
    std::vector<std::optional<Money>> best(evidence.roots.size(), evidence.constant);
    std::vector<char> no_plan(evidence.roots.size(), 0);
    for (std::size_t set = 0; set < evidence.prices.size(); ++set) {
        const auto bounds = direct_bounds(scenario, evidence, all_plans(evidence, set));
        for (std::size_t r = 0; r < best.size(); ++r) {
            if (!bounds[r]) no_plan[r] = 1;
            if (bounds[r]) best[r] = std::max(*best[r], *bounds[r]);
        }
    }
    std::vector<std::optional<Money>> least(evidence.roots.size());  // Of the parts; nothing where none has a plan.
    for (const graph::PartProof& part : evidence.splits) {
        const auto bounds = direct_bounds(scenario, evidence, plans_of(evidence, part));
        for (std::size_t r = 0; r < least.size(); ++r) {
            if (bounds[r]) least[r] = std::min(least[r].value_or(*bounds[r]), *bounds[r]);
        }
    }
    for (std::size_t r = 0; r < best.size(); ++r) {
        if (least[r]) best[r] = std::max(*best[r], *least[r]);
        if (no_plan[r] || (!evidence.splits.empty() && !least[r])) best[r].reset();
    }
    return best;
}

}  // namespace spadework::certificate
