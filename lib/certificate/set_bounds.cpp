#include "certificate/set_bounds.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <queue>
#include <utility>

#include "strands/strand_need.hpp"

namespace spadework::certificate {

namespace {

using Labels = std::vector<std::optional<Wide>>;

std::int64_t units_of(const Scenario& scenario, std::size_t building) {
    return strands_in_use(scenario.buildings[building], scenario.rules);
}

/// Shortest distances from the hub by one figure of the edges.
template <typename Figure>
Labels from_hub(const Scenario& scenario, const TrunkEvidence& evidence, Figure figure) {
    DirectedCharges charges;
    for (const CertifiedEdge& edge : evidence.edges)
        charges[0].push_back(figure(edge));
    charges[1] = charges[0];
    return EdgeDistances(scenario, evidence.edges).to(scenario.hub.place, charges);
}

/// Spreads labels along the edges, in the directions of travel.
Labels spread(const Scenario& scenario, const std::vector<CertifiedEdge>& edges, const Labels& start,
              const DirectedCharges& charges) {
    struct Step {
        PlaceIndex to = 0;
        std::size_t edge = 0;
        std::size_t direction = 0;
    };
    std::vector<std::vector<Step>> out(scenario.places.size());
    for (std::size_t e = 0; e < edges.size(); ++e) {
        const Segment& segment = scenario.segments[static_cast<std::size_t>(edges[e].segment)];
        out[static_cast<std::size_t>(segment.from)].push_back({segment.to, e, 0});
        out[static_cast<std::size_t>(segment.to)].push_back({segment.from, e, 1});
    }
    using Entry = std::pair<Wide, PlaceIndex>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue;
    for (std::size_t p = 0; p < start.size(); ++p) {
        if (start[p]) queue.emplace(*start[p], static_cast<PlaceIndex>(p));
    }
    Labels labels(start.size());
    while (!queue.empty()) {
        const auto [here, place] = queue.top();
        queue.pop();
        auto& known = labels[static_cast<std::size_t>(place)];
        if (known) continue;
        known = here;
        for (const Step& step : out[static_cast<std::size_t>(place)]) {
            if (labels[static_cast<std::size_t>(step.to)]) continue;
            queue.emplace(std::min(here + charges[step.direction][step.edge], most_distance), step.to);
        }
    }
    return labels;
}

/// What a building's prices and cable come to on each edge, in parts.
struct BuildingCharges {
    DirectedCharges prices;
    DirectedCharges with_cable;
};

BuildingCharges charges_of(const TrunkEvidence& evidence, const graph::TwoLevelDemand& demand,
                           const std::vector<graph::EdgePrice>& prices) {
    BuildingCharges charges;
    const std::vector<Wide> none(evidence.edges.size(), 0);
    charges.prices = {none, none};
    add_prices(prices, charges.prices);
    charges.with_cable = charges.prices;
    for (std::size_t e = 0; e < evidence.edges.size(); ++e) {
        const Wide cable = static_cast<Wide>(demand.weight) * evidence.edges[e].length +
                           static_cast<Wide>(demand.multiplicity) * evidence.edges[e].passage;
        for (std::vector<Wide>& direction : charges.with_cable)
            direction[e] += std::min(cable, most_charge) * evidence.proof.parts;
    }
    return charges;
}

/// The least that a multiple is charged for a home run beside its way, so that no building is charged more than it
/// pays.
Wide direct_share(const TrunkEvidence& evidence, const std::vector<Wide>& multiples) {
    std::optional<Wide> least;
    for (std::size_t b = 0; b < multiples.size(); ++b) {
        if (multiples[b] == 0 || !evidence.demands[b].direct) continue;
        const Wide fixed = static_cast<Wide>(evidence.demands[b].direct->fixed) * evidence.proof.parts;
        Wide share = fixed / multiples[b];
        if (share * multiples[b] > fixed) --share;
        least = least ? std::min(*least, share) : share;
    }
    return least.value_or(0);
}

TrunkCosts without_costs(const Scenario& scenario) {
    TrunkCosts trunks;
    std::int64_t all = 0;
    std::int64_t step = 0;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        all += units_of(scenario, b);
        step = std::gcd(step, units_of(scenario, b));
    }
    trunks.units_a_step = std::max<std::int64_t>(step, 1);
    trunks.steps = all / trunks.units_a_step;
    return trunks;
}

/// `way_cost(site, size)` tells what a trunk's way costs, in parts; nothing where there is none.
template <typename WayCost>
TrunkCosts costs_of(const Scenario& scenario, const TrunkEvidence& evidence, WayCost way_cost) {
    TrunkCosts trunks = without_costs(scenario);
    for (const graph::Site& site : evidence.sites) {
        std::vector<Wide>& costs = trunks.cost.emplace_back(static_cast<std::size_t>(trunks.steps) + 1, never);
        for (std::size_t s = 0; s < evidence.sizes.size(); ++s) {
            const graph::FeederSize& size = evidence.sizes[s];
            const std::optional<Wide> way = way_cost(site, size);
            if (!way) continue;
            const Wide cost = (Wide{site.cost} + size.fixed + site.feeder_extra[s]) * evidence.proof.parts +
                              std::min(*way, most_charge * evidence.proof.parts);
            for (std::int64_t steps = 0; steps <= trunks.steps && steps * trunks.units_a_step <= size.units; ++steps) {
                Wide& least = costs[static_cast<std::size_t>(steps)];
                least = std::min(least, cost);
            }
        }
    }
    return trunks;
}

/// Of each edge what its opening leaves when all buildings pay for the dearer direction, in parts.
std::vector<Wide> left_by(const TrunkEvidence& evidence, const graph::EdgePriceSet& prices) {
    const std::vector<Wide> none(evidence.edges.size(), 0);
    DirectedCharges sums = {none, none};
    for (const std::vector<graph::EdgePrice>& of_building : prices)
        add_prices(of_building, sums);
    std::vector<Wide> left;
    for (std::size_t e = 0; e < evidence.edges.size(); ++e)
        left.push_back(static_cast<Wide>(evidence.edges[e].opening) * evidence.proof.parts -
                       std::max(sums[0][e], sums[1][e]));
    return left;
}

}  // namespace

TrunkCosts trunk_costs(const Scenario& scenario, const TrunkEvidence& evidence) {
    const Labels length = from_hub(scenario, evidence, [](const CertifiedEdge& edge) { return Wide{edge.length}; });
    const Labels passage = from_hub(scenario, evidence, [](const CertifiedEdge& edge) { return Wide{edge.passage}; });
    return costs_of(
        scenario, evidence, [&](const graph::Site& site, const graph::FeederSize& size) -> std::optional<Wide> {
            const auto& far = length[static_cast<std::size_t>(site.at)];
            const auto& dear = passage[static_cast<std::size_t>(site.at)];
            if (!far || !dear) return std::nullopt;
            const Wide way =
                size.weight * std::min(*far, most_charge) + size.multiplicity * std::min(*dear, most_charge);
            return std::min(way, most_charge) * evidence.proof.parts;
        });
}

TrunkCosts trunk_costs(const Scenario& scenario, const TrunkEvidence& evidence, const graph::EdgePriceSet& prices,
                       std::size_t trunks) {
    const EdgeDistances paths(scenario, evidence.edges);
    const std::vector<Wide> left = left_by(evidence, prices);
    const Wide among = static_cast<Wide>(std::max<std::size_t>(trunks, 1));
    std::map<std::pair<graph::Cost, graph::Cost>, Labels> known;  // By what a size pays for length and passage.
    const auto from_hub_at = [&](const graph::FeederSize& size) -> const Labels& {
        const auto [entry, is_new] = known.try_emplace({size.weight, size.multiplicity});
        if (!is_new) return entry->second;
        DirectedCharges charges;
        for (std::size_t e = 0; e < evidence.edges.size(); ++e) {
            const Wide cable = static_cast<Wide>(size.weight) * evidence.edges[e].length +
                               static_cast<Wide>(size.multiplicity) * evidence.edges[e].passage;
            charges[0].push_back(std::min(cable, most_charge) * evidence.proof.parts * among + left[e]);
        }
        charges[1] = charges[0];
        return entry->second = paths.to(scenario.hub.place, charges);
    };
    return costs_of(scenario, evidence,
                    [&](const graph::Site& site, const graph::FeederSize& size) -> std::optional<Wide> {
                        const auto& way = from_hub_at(size)[static_cast<std::size_t>(site.at)];
                        if (!way) return std::nullopt;
                        return *way / among;
                    });
}

std::vector<Wide> multiples_of(const TrunkEvidence& evidence) {
    const auto no_length = [](const CertifiedEdge& edge) { return edge.length == 0; };
    const auto no_passage = [](const CertifiedEdge& edge) { return edge.passage == 0; };
    const bool lengths = !std::all_of(evidence.edges.begin(), evidence.edges.end(), no_length);
    const bool passages = !std::all_of(evidence.edges.begin(), evidence.edges.end(), no_passage);
    std::vector<Wide> multiples;
    for (const graph::TwoLevelDemand& demand : evidence.demands)
        multiples.push_back(std::gcd(lengths ? demand.weight : 0, passages ? demand.multiplicity : 0));
    return multiples;
}

std::optional<Wide> share_of_ask(const Scenario& scenario, const TrunkEvidence& evidence, graph::Cost ask) {
    const std::vector<Wide> multiples = multiples_of(evidence);
    std::optional<Wide> least;
    for (std::size_t b = 0; b < multiples.size(); ++b) {
        const Wide asked = static_cast<Wide>(ask) * units_of(scenario, b);
        if (multiples[b] == 0) {
            if (asked < 0) return std::nullopt;
            continue;
        }
        Wide share = asked / multiples[b];
        if (share * multiples[b] > asked) --share;
        least = least ? std::min(*least, share) : share;
    }
    return least.value_or(0);
}

ServiceCosts service_costs(const Scenario& scenario, const TrunkEvidence& evidence, const graph::EdgePriceSet& prices) {
    const EdgeDistances paths(scenario, evidence.edges);
    const std::vector<Wide> multiples = multiples_of(evidence);
    const Wide of_direct = direct_share(evidence, multiples);
    const std::size_t hub = static_cast<std::size_t>(scenario.hub.place);
    ServiceCosts costs{{evidence.sites.size(), std::vector<Wide>(evidence.demands.size(), never)},
                       std::vector<Wide>(evidence.demands.size(), never)};
    for (std::size_t b = 0; b < evidence.demands.size(); ++b) {
        const graph::TwoLevelDemand& demand = evidence.demands[b];
        const BuildingCharges charges = charges_of(evidence, demand, prices[b]);
        Labels start(scenario.places.size());
        start[hub] = 0;
        const Labels to_fork = spread(scenario, evidence.edges, start, charges.prices);
        Labels fork = paths.to(demand.at, charges.with_cable);
        if (demand.direct && fork[hub]) costs.direct[b] = *fork[hub] + of_direct * multiples[b];
        for (std::size_t p = 0; p < fork.size(); ++p) {
            if (fork[p] && to_fork[p]) {
                *fork[p] += *to_fork[p];
            } else {
                fork[p].reset();
            }
        }
        const Labels at = spread(scenario, evidence.edges, fork, charges.with_cable);
        for (std::size_t s = 0; s < evidence.sites.size(); ++s) {
            const auto& here = at[static_cast<std::size_t>(evidence.sites[s].at)];
            if (here) costs.from_site[s][b] = *here;
        }
    }
    return costs;
}

StepRange steps_of(const graph::TwoLevelCertificate::Units& units, const TrunkCosts& trunks) {
    const std::int64_t step = trunks.units_a_step;
    return {(units.least + step - 1) / step, std::min(units.most / step, trunks.steps)};
}

Wide least_trunk(const TrunkCosts& trunks, std::size_t site, graph::Cost ask) {
    Wide least = never;
    for (std::int64_t steps = 0; steps <= trunks.steps; ++steps) {
        const Wide cost = trunks.cost[site][static_cast<std::size_t>(steps)];
        if (cost < never) least = std::min(least, cost - static_cast<Wide>(ask) * trunks.units_a_step * steps);
    }
    return least;
}

void lower(std::vector<Wide>& cheapest, const std::vector<Wide>& from_site, Wide share,
           const std::vector<Wide>& multiples) {
    for (std::size_t b = 0; b < cheapest.size(); ++b) {
        if (from_site[b] < never) cheapest[b] = std::min(cheapest[b], from_site[b] + share * multiples[b]);
    }
}

Wide cheapest_split(const TrunkCosts& trunks, const std::vector<std::int32_t>& sites,
                    const std::vector<graph::Cost>& asks, const std::vector<StepRange>& ranges, bool all) {
    const auto width = static_cast<std::size_t>(trunks.steps) + 1;
    std::vector<Wide> least(width, never);
    least[0] = 0;
    for (std::size_t k = 0; k < sites.size(); ++k) {
        const std::vector<Wide>& costs = trunks.cost[static_cast<std::size_t>(sites[k])];
        std::vector<Wide> next(width, never);
        for (std::size_t before = 0; before < width; ++before) {
            if (least[before] >= never) continue;
            for (std::int64_t here = ranges[k].least; here <= ranges[k].most; ++here) {
                const std::size_t after = before + static_cast<std::size_t>(here);
                if (after >= width) break;
                if (costs[static_cast<std::size_t>(here)] >= never) continue;
                const Wide asked = static_cast<Wide>(asks[k]) * trunks.units_a_step * here;
                next[after] = std::min(next[after], least[before] + costs[static_cast<std::size_t>(here)] - asked);
            }
        }
        least = std::move(next);
    }
    return all ? least.back() : *std::min_element(least.begin(), least.end());
}

}  // namespace spadework::certificate
