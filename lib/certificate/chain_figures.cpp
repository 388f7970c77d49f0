#include <algorithm>

#include <fmt/format.h>

#include "certificate/chain_check.hpp"
#include "certificate/edge_check.hpp"
#include "certificate/link_figures.hpp"
#include "rates/gear_rates.hpp"
#include "strands/strand_need.hpp"

namespace spadework::certificate {

namespace {

constexpr graph::Cost most_visit_price = graph::Cost{1} << 60U;
constexpr std::size_t most_neighbours = 10;

int most_links(const Scenario& scenario) {
    int most = 1;
    for (const Building& building : scenario.buildings)
        most = std::max(most, link_count(building));
    return most;
}

/// What a building's gear costs within a chain, and how much less at its end.
struct Station {
    Money through;
    Money saving;
};

std::optional<Money> gear_price(const Scenario& scenario, const Building& building, int optic_ports, BitRate rate) {
    const auto gear = cheapest_building_gear(scenario, building, {optic_ports, rate});
    if (!gear) return std::nullopt;
    const auto& product = scenario.catalogue.building_gear[static_cast<std::size_t>(gear->product)];
    return price_installed(product, gear->count, scenario.labour);
}

/// Gear that no light passes on from stands at ends alone.
std::optional<Station> station_of(const Scenario& scenario, const Building& building, int links, BitRate rate) {
    const auto end = gear_price(scenario, building, links, rate);
    if (!end) return std::nullopt;
    const Money through = gear_price(scenario, building, 2 * links, rate).value_or(*end);
    return Station{through, through - *end};
}

/// What every set of chains pays beside its routes, for each number of chains from the fewest to one a building.
struct ChainFigures {
    LeastCable hop;
    int fewest = 1;
    std::vector<Money> beside;  ///< From the fewest on.
};

std::optional<ChainFigures> figures_of(const Scenario& scenario) {
    const int links = most_links(scenario);
    const BitRate rate = fastest_rate(scenario);
    const int in_use = links * strands_per_link(scenario.rules.strand_use);
    const auto hop = least_cable(scenario, drop_need(in_use, scenario.rules).total(), in_use);
    const auto link = least_link(scenario, rate, 0);
    if (!hop || !link) return std::nullopt;
    Money each = scenario.labour.mobilisation;
    Money most_saving;
    for (const Building& building : scenario.buildings) {
        const auto station = station_of(scenario, building, links, rate);
        if (!station) return std::nullopt;
        each += Money::from_minor(hop->ends + hop->end_work - hop->rounding) + station->through + *link * links;
        most_saving = std::max(most_saving, station->saving);
    }
    const int buildings = static_cast<int>(scenario.buildings.size());
    const int limit = std::max(1, scenario.rules.hop_limit);
    ChainFigures figures{*hop, (buildings + limit - 1) / limit, {}};
    for (int chains = figures.fewest; chains <= buildings; ++chains) {
        const auto switches = cheapest_hub_gear(scenario, chains * links, rate);
        if (!switches) break;  // So many chains cannot be lit.
        figures.beside.push_back(each + price_of(scenario, *switches) - most_saving * chains);
    }
    return figures;
}

bool lists_fit(const Scenario& scenario, const ChainEvidence& evidence) {
    const std::size_t stops = scenario.buildings.size();
    return evidence.proof.hop_charges.size() == evidence.edges.size() &&
           evidence.proof.joining_prices.size() == stops && evidence.proof.arrival_prices.size() == stops &&
           evidence.proof.visit_prices.size() == stops && evidence.proof.neighbours.size() == stops;
}

std::string range_fault(const Scenario& scenario, const ChainEvidence& evidence) {
    const auto stops = static_cast<std::int32_t>(scenario.buildings.size());
    for (std::int32_t s = 0; s < stops; ++s) {
        const auto at = static_cast<std::size_t>(s);
        const graph::Cost price = evidence.proof.visit_prices[at];
        if (price > most_visit_price || price < -most_visit_price) return "a visit's price is beyond 2^60";
        std::vector<std::int32_t> sorted = evidence.proof.neighbours[at];
        std::sort(sorted.begin(), sorted.end());
        const bool twice = std::adjacent_find(sorted.begin(), sorted.end()) != sorted.end();
        const bool other =
            std::all_of(sorted.begin(), sorted.end(), [&](std::int32_t n) { return n >= 0 && n < stops && n != s; });
        if (twice || !other || sorted.size() > most_neighbours) {
            return fmt::format("building {} does not have up to {} other buildings to remember, each once",
                               scenario.buildings[at].id, most_neighbours);
        }
    }
    return "";
}

}  // namespace

std::vector<std::string> chain_figure_faults(const Scenario& scenario, const ChainEvidence& evidence) {
    const auto figures = figures_of(scenario);
    if (!figures) return {"no daisy chain can be built"};
    if (!lists_fit(scenario, evidence)) return {"there is not one entry for each edge and each building"};
    std::vector<std::string> faults =
        edge_faults(scenario, evidence.edges, evidence.units_a_minor,
                    {{"a hop's cable", evidence.weight, evidence.multiplicity, figures->hop}});
    const std::string range = range_fault(scenario, evidence);
    if (!range.empty()) faults.push_back(range);
    for (std::size_t i = 0; i < figures->beside.size(); ++i) {
        const auto chains = static_cast<std::int64_t>(i) + figures->fewest;
        const Wide units = evidence.units_a_minor;
        const Wide claimed =
            evidence.constant.minor() * units + (static_cast<Wide>(evidence.chain_cost) - evidence.end_saving) * chains;
        if (claimed <= figures->beside[i].minor() * units) continue;
        faults.push_back(
            fmt::format("the constant of {} and what {} chains cost are above the {} that plans with so "
                        "many pay beside their routes",
                        evidence.constant.minor(), chains, figures->beside[i].minor()));
        break;
    }
    return faults;
}

}  // namespace spadework::certificate
