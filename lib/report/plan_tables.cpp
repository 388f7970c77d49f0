#include "report/plan_tables.hpp"

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/shown_text.hpp"
#include "report/text_table.hpp"

namespace spadework {

namespace {

const std::string& place_id(const Scenario& scenario, PlaceIndex place) {
    return scenario.places[static_cast<std::size_t>(place)].id;
}

const std::string& building_id(const Scenario& scenario, BuildingIndex building) {
    return scenario.buildings[static_cast<std::size_t>(building)].id;
}

std::string names_of(const Scenario& scenario, const std::vector<BuildingIndex>& buildings) {
    std::string text;
    for (const BuildingIndex building : buildings)
        text += (text.empty() ? "" : ", ") + building_id(scenario, building);
    return text;
}

int strands_laid(const Scenario& scenario, const PlannedCable& cable) {
    return scenario.catalogue.cables[static_cast<std::size_t>(cable.product)].strands;
}

std::string count_figure(int count) {
    return figure(std::int64_t{count});
}

}  // namespace

std::string pieces_in_words(const std::vector<Pieces>& pieces, const std::vector<EnclosureProduct>& products) {
    std::string text;
    for (const Pieces& some : pieces) {
        text += fmt::format("{}{} x {}", text.empty() ? "" : ", ", some.count,
                            products[static_cast<std::size_t>(some.product)].id);
    }
    return text;
}

int adapters_of(const Scenario& scenario, const PlannedEnclosure& enclosure) {
    int adapters = 0;
    for (const Pieces& some : enclosure.products)
        adapters += scenario.catalogue.enclosures[static_cast<std::size_t>(some.product)].adapters * some.count;
    return adapters;
}

std::string enclosure_table(const Scenario& scenario, const Plan& plan) {
    TextTable table({{"Place", Align::left, true},
                     {"Enclosure", Align::left, true},
                     {"Adapters", Align::right},
                     {"Strands\nin use", Align::right},
                     {"Strands\nlaid", Align::right},
                     {"Serves", Align::left, true}});
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        int laid = 0;
        for (const int trunk : enclosure.trunks)
            laid += strands_laid(scenario, plan.cables[static_cast<std::size_t>(trunk)]);
        table.add({shown(place_id(scenario, enclosure.place)),
                   shown(pieces_in_words(enclosure.products, scenario.catalogue.enclosures)),
                   count_figure(adapters_of(scenario, enclosure)), count_figure(enclosure.need.in_use),
                   count_figure(laid), shown(names_of(scenario, enclosure.serves))});
    }
    return table.empty() ? "" : table.text();
}

std::string cable_table(const Scenario& scenario, const Plan& plan) {
    const std::string unit = length_unit(scenario);
    TextTable table({{"Cable", Align::left, true},
                     {"From", Align::left, true},
                     {"To", Align::left, true},
                     {"Strands\nlaid", Align::right},
                     {"Strands\nin use", Align::right},
                     {fmt::format("On the\nmap ({})", unit), Align::right},
                     {fmt::format("As ordered\n({})", unit), Align::right}});
    Length route;
    Length ordered;
    for (const PlannedCable& cable : plan.cables) {
        table.add({shown(cable.id), shown(place_id(scenario, cable.from)), shown(place_id(scenario, cable.to)),
                   count_figure(strands_laid(scenario, cable)), count_figure(cable.need.in_use),
                   figure(cable.lengths.route, scenario), figure(cable.lengths.ordered, scenario)});
        route += cable.lengths.route;
        ordered += cable.lengths.ordered;
    }
    table.add_total({"Total", "", "", "", "", figure(route, scenario), figure(ordered, scenario)});
    return table.text();
}

std::string link_table(const Scenario& scenario, const LayoutResult& result) {
    TextTable table({{"Building", Align::left, true},
                     {"From", Align::left, true},
                     {"Rate", Align::right},
                     {"Optic", Align::left, true},
                     {"Strands", Align::right},
                     {fmt::format("Fibre\n({})", length_unit(scenario)), Align::right},
                     {"Loss\n(dB)", Align::right},
                     {"Limit\n(dB)", Align::right},
                     {"Margin\n(dB)", Align::right}});
    for (const LinkBudget& budget : result.link_budgets) {
        const PlannedLink& link = result.plan->links[static_cast<std::size_t>(budget.link)];
        const DirectionLoss& worse = budget.worse();
        table.add({shown(building_id(scenario, link.building)),
                   link.from ? shown(building_id(scenario, *link.from)) : "hub", to_text(link.rate),
                   shown(scenario.catalogue.optics[static_cast<std::size_t>(link.optic)].id),
                   count_figure(link.strands), figure(link.glass, scenario), figure(worse.loss_db, 2),
                   figure(worse.limit_db, 2), figure(worse.margin_db, 2)});
    }
    return table.text();
}

}  // namespace spadework
