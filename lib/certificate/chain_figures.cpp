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

/// Gear that no light passes on from stands at ends alone; a ring has none.
std::optional<Station> station_of(const Scenario& scenario, const Building& building, int links, BitRate rate,
                                  Chains chains) {
    const auto end = gear_price(scenario, building, links, rate);
    const auto through = gear_price(scenario, building, 2 * links, rate);
    if (chains == Chains::closed) return through ? std::optional(Station{*through, Money()}) : std::nullopt;
    if (!end) return std::nullopt;
    return Station{through.value_or(*end), through.value_or(*end) - *end};
}

/// What every set of chains pays beside its routes, for each number of chains from the fewest to one a building.
struct ChainFigures {
    LeastCable hop;
    int fewest = 1;
    std::vector<Money> beside;  ///< From the fewest on.
};

/// What a hop pays beside its route: the cable's ends and its links.
std::optional<Money> beside_a_hop(const Scenario& scenario, const LeastCable& hop, int links) {
    const auto link = least_link(scenario, fastest_rate(scenario), 0);
    if (!link) return std::nullopt;
    return Money::from_minor(hop.ends + hop.end_work - hop.rounding) + *link * links;
}

/// Chains from the fewest to one a building, each with `a_chain` and its ends at the hub.
void add_hub(const Scenario& scenario, int links, Chains chains, Money each, Money a_chain, ChainFigures& figures) {
    const int ends = chains == Chains::closed ? 2 : 1;
    for (int count = figures.fewest; count <= static_cast<int>(scenario.buildings.size()); ++count) {
        const auto switches = cheapest_hub_gear(scenario, ends * count * links, fastest_rate(scenario));
        if (!switches) break;  // So many chains cannot be lit.
        figures.beside.push_back(each + price_of(scenario, *switches) + a_chain * count);
    }
}

std::optional<ChainFigures> figures_of(const Scenario& scenario, Chains chains) {
    const int links = most_links(scenario);
    const int in_use = links * strands_per_link(scenario.rules.strand_use);
    const auto hop = least_cable(scenario, drop_need(in_use, scenario.rules).total(), in_use);
    const auto beside = hop ? beside_a_hop(scenario, *hop, links) : std::nullopt;
    if (!beside) return std::nullopt;
    Money each = scenario.labour.mobilisation;
    Money most_saving;
    for (const Building& building : scenario.buildings) {
        const auto station = station_of(scenario, building, links, fastest_rate(scenario), chains);
        if (!station) return std::nullopt;
        each += *beside + station->through;
        most_saving = std::max(most_saving, station->saving);
    }
    const int buildings = static_cast<int>(scenario.buildings.size());
    const int limit = std::max(1, scenario.rules.hop_limit);
    ChainFigures figures{*hop, (buildings + limit - 1) / limit, {}};
    add_hub(scenario, links, chains, each, chains == Chains::closed ? *beside : most_saving * -1, figures);
    return figures;
}

bool lists_fit(const Scenario& scenario, const ChainEvidence& evidence, Chains chains) {
    const std::size_t stops = scenario.buildings.size();
    const bool closed = chains == Chains::closed;
    if (evidence.proof.closing_prices.size() != (closed ? stops : 0)) return false;
    if (evidence.proof.pass_charges.size() != (closed ? evidence.edges.size() : 0)) return false;
    return evidence.proof.hop_charges.size() == evidence.edges.size() &&
           evidence.proof.joining_prices.size() == stops && evidence.proof.arrival_prices.size() == stops &&
           evidence.proof.visit_prices.size() == stops && evidence.proof.neighbours.size() == stops;
}

bool each_once(std::vector<std::int32_t> positions, std::int32_t stops) {
    std::sort(positions.begin(), positions.end());
    const bool twice = std::adjacent_find(positions.begin(), positions.end()) != positions.end();
    return !twice && (positions.empty() || (positions.front() >= 0 && positions.back() < stops));
}

std::string entry_fault(const ChainEvidence& evidence, std::int32_t stops) {
    for (const graph::EntryPrice& entry : evidence.proof.entry_prices) {
        if (entry.price < 0 || entry.price > most_visit_price) return "an entry's price is below 0 or beyond 2^60";
        if (entry.stops.empty() || !each_once(entry.stops, stops)) {
            return "an entry's price does not name buildings, each once";
        }
    }
    return "";
}

std::string range_fault(const Scenario& scenario, const ChainEvidence& evidence) {
    const auto stops = static_cast<std::int32_t>(scenario.buildings.size());
    for (std::int32_t s = 0; s < stops; ++s) {
        const auto at = static_cast<std::size_t>(s);
        const graph::Cost price = evidence.proof.visit_prices[at];
        if (price > most_visit_price || price < -most_visit_price) return "a visit's price is beyond 2^60";
        const std::vector<std::int32_t>& neighbours = evidence.proof.neighbours[at];
        const bool itself = std::find(neighbours.begin(), neighbours.end(), s) != neighbours.end();
        if (itself || !each_once(neighbours, stops) || neighbours.size() > most_neighbours) {
            return fmt::format("building {} does not have up to {} other buildings to remember, each once",
                               scenario.buildings[at].id, most_neighbours);
        }
    }
    return entry_fault(evidence, stops);
}

}  // namespace

bool chains_are_possible(const Scenario& scenario, Chains chains) {
    const auto figures = figures_of(scenario, chains);
    return figures && !figures->beside.empty();
}

std::vector<std::string> chain_figure_faults(const Scenario& scenario, const ChainEvidence& evidence, Chains chains) {
    const auto figures = figures_of(scenario, chains);
    if (!figures) return {chains == Chains::closed ? "no ring can be built" : "no daisy chain can be built"};
    if (!lists_fit(scenario, evidence, chains)) return {"there is not one entry for each edge and each building"};
    std::vector<std::string> faults =
        edge_faults(scenario, evidence.edges, evidence.units_a_minor,
                    {{"a hop's cable", evidence.weight, evidence.multiplicity, figures->hop}}, Coils::charged);
    const std::string range = range_fault(scenario, evidence);
    if (!range.empty()) faults.push_back(range);
    for (std::size_t i = 0; i < figures->beside.size(); ++i) {
        const auto count = static_cast<std::int64_t>(i) + figures->fewest;
        const Wide units = evidence.units_a_minor;
        const Wide claimed =
            evidence.constant.minor() * units + (static_cast<Wide>(evidence.chain_cost) - evidence.end_saving) * count;
        if (claimed <= figures->beside[i].minor() * units) continue;
        faults.push_back(
            fmt::format("the constant of {} and what {} {} cost are above the {} that plans with so "
                        "many pay beside their routes",
                        evidence.constant.minor(), count, chains == Chains::closed ? "rings" : "chains",
                        figures->beside[i].minor()));
        break;
    }
    return faults;
}

}  // namespace spadework::certificate
