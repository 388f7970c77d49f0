#include "extension/cut_in.hpp"

#include <algorithm>

#include "extension/candidates.hpp"
#include "extension/extension_bill.hpp"
#include "rates/cable_rates.hpp"
#include "rates/gear_rates.hpp"
#include "rates/quote_rates.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

/// One place on a trunk's way.
struct Cut {
    int cable = 0;
    PlaceIndex place = 0;
    std::vector<Step> steps;  ///< From the hub to the place.
    Length route;
    int handholes = 0;
};

bool takes_enclosure(const ExtensionSearch& search, PlaceIndex place) {
    const auto stands_there = [place](const PlannedEnclosure& enclosure) { return enclosure.place == place; };
    return search.scenario.places[static_cast<std::size_t>(place)].enclosure_allowed &&
           std::none_of(search.built.enclosures.begin(), search.built.enclosures.end(), stands_there);
}

/// Every place that a trunk passes between its ends and that may take an enclosure.
std::vector<Cut> cuts_of(const ExtensionSearch& search, int cable) {
    const PlannedCable& trunk = search.built.cables[static_cast<std::size_t>(cable)];
    std::vector<Cut> cuts;
    Cut cut;
    cut.cable = cable;
    cut.place = trunk.from;
    for (const Step& step : trunk.steps) {
        const Segment& segment = search.scenario.segments[static_cast<std::size_t>(step.segment)];
        cut.place = segment.from == cut.place ? segment.to : segment.from;
        cut.steps.push_back(step);
        cut.route += segment.length;
        if (cut.place == trunk.to) break;
        if (takes_enclosure(search, cut.place)) cuts.push_back(cut);
        const Place& place = search.scenario.places[static_cast<std::size_t>(cut.place)];
        if (place.kind == PlaceKind::handhole) ++cut.handholes;
    }
    return cuts;
}

int strands_wanted(const ExtensionSearch& search) {
    int strands = 0;
    for (const BuildingIndex addition : search.additions)
        strands += strands_in_use(search.scenario.buildings[static_cast<std::size_t>(addition)], search.scenario.rules);
    return strands;
}

/// The built plan as it would be with the enclosure, for drops to begin there.
Plan with_enclosure(const ExtensionSearch& search, const Cut& cut) {
    Plan plan = search.built;
    PlannedCable part = plan.cables[static_cast<std::size_t>(cut.cable)];
    const CableProduct& product = search.scenario.catalogue.cables[static_cast<std::size_t>(part.product)];
    part.id += "-to-the-cut";
    part.to = cut.place;
    part.steps = cut.steps;
    part.lengths = cable_lengths(product, cut.route, cut.handholes, search.scenario.rules);
    part.enclosure = static_cast<int>(plan.enclosures.size());
    PlannedEnclosure enclosure;
    enclosure.place = cut.place;
    enclosure.trunks = {static_cast<int>(plan.cables.size())};
    plan.cables.push_back(std::move(part));
    plan.enclosures.push_back(std::move(enclosure));
    return plan;
}

WorkTime time_to_cut(const Scenario& scenario, const CableProduct& product) {
    return scenario.catalogue.splicing.set_up_time + scenario.catalogue.splicing.time_per_splice * product.strands;
}

/// The enclosure, what its place costs extra, and splicing every strand through.
std::optional<Money> cost_of_cut(const ExtensionSearch& search, const Cut& cut) {
    const Scenario& scenario = search.scenario;
    const auto boxes = cheapest_enclosures(scenario, strands_wanted(search));
    if (!boxes) return std::nullopt;
    const PlannedCable& trunk = search.built.cables[static_cast<std::size_t>(cut.cable)];
    const CableProduct& product = scenario.catalogue.cables[static_cast<std::size_t>(trunk.product)];
    return price_of_enclosures(scenario, *boxes) +
           scenario.places[static_cast<std::size_t>(cut.place)].enclosure_extra +
           amount(scenario.catalogue.splicing.rate_per_hour, time_to_cut(scenario, product));
}

/// What the customer would pay for all additions from this cut.
std::optional<Money> total_of(const ExtensionSearch& search, const ExtensionTask& task, const Cut& cut) {
    constexpr int plenty = 1000000;
    const Plan built = with_enclosure(search, cut);
    BuiltWorks works = search.works;
    works.dark_strands.push_back(works.dark_strands[static_cast<std::size_t>(cut.cable)]);
    works.free_adapters.push_back(plenty);
    const ExtensionSearch here{search.scenario, built, works, search.additions, search.network, search.figures};
    const ExtensionTask from_here{search.scenario, built, works, search.additions, task.hub_gear, task.why_no_hub_gear};
    const Source source{Source::Kind::built_enclosure, static_cast<int>(built.enclosures.size()) - 1};
    const auto cutting = cost_of_cut(search, cut);
    if (!cutting) return std::nullopt;
    std::optional<Money> least;
    for (const Candidate& candidate : from_sources(here, {source})) {
        const ExtensionAssembly assembly = assemble(from_here, candidate.routed);
        if (!assembly.extended) continue;
        const Money direct = direct_cost(price_of_extension(search.scenario, *assembly.extended)) + *cutting;
        const Money total = quote_for(direct, search.scenario.rules).total();
        if (!least || total < *least) least = total;
    }
    return least;
}

}  // namespace

std::optional<CutIn> cheapest_cut_in(const ExtensionSearch& search, const ExtensionTask& task) {
    if (!may_add_enclosure(search)) return std::nullopt;
    const int strands = strands_wanted(search);
    std::optional<CutIn> best;
    for (int c = 0; c < static_cast<int>(search.built.cables.size()); ++c) {
        const PlannedCable& cable = search.built.cables[static_cast<std::size_t>(c)];
        const bool holds = search.works.dark_strands[static_cast<std::size_t>(c)] >= strands;
        if (cable.role != CableRole::trunk || !holds) continue;
        for (const Cut& cut : cuts_of(search, c)) {
            const auto total = total_of(search, task, cut);
            if (!total || (best && best->total <= *total)) continue;
            const auto product = static_cast<std::size_t>(cable.product);
            best = CutIn{
                c, cut.place, *total, {}, time_to_cut(search.scenario, search.scenario.catalogue.cables[product])};
        }
    }
    if (!best) return best;
    for (std::size_t l = 0; l < search.built.links.size(); ++l) {
        const std::vector<int>& cables = search.built.links[l].cables;
        if (std::find(cables.begin(), cables.end(), best->cable) != cables.end())
            best->links.push_back(static_cast<int>(l));
    }
    return best;
}

}  // namespace spadework
