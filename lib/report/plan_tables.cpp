#include "report/plan_tables.hpp"

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/link_tables.hpp"
#include "report/lookup.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

std::string count_figure(int count) {
    return figure(std::int64_t{count});
}

}  // namespace

TextTable enclosure_table(const Scenario& scenario, const Plan& plan) {
    TextTable table({{"Place", Align::left, true},
                     {"Enclosure", Align::left, true},
                     {"Adapters", Align::right},
                     {"Strands\nin use", Align::right},
                     {"Strands\nlaid", Align::right},
                     {"Serves", Align::left, true}});
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        table.add({shown(place_at(scenario, enclosure.place).id), shown(products_in_words(scenario, enclosure)),
                   count_figure(adapters_of(scenario, enclosure)), count_figure(enclosure.need.in_use),
                   count_figure(trunk_strands(scenario, plan, enclosure)),
                   shown(ids_of(scenario, enclosure.serves, ", "))});
    }
    return table;
}

TextTable cable_table(const Scenario& scenario, const Plan& plan) {
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
        table.add({shown(cable.id), shown(place_at(scenario, cable.from).id), shown(place_at(scenario, cable.to).id),
                   count_figure(product_of(scenario, cable).strands), count_figure(cable.need.in_use),
                   figure(cable.lengths.route, scenario), figure(cable.lengths.ordered, scenario)});
        route += cable.lengths.route;
        ordered += cable.lengths.ordered;
    }
    table.add_total({"Total", "", "", "", "", figure(route, scenario), figure(ordered, scenario)});
    return table;
}

TextTable link_table(const Scenario& scenario, const LayoutResult& result) {
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
        table.add({shown(building_at(scenario, link.building).id), shown(link_origin(scenario, link)),
                   to_text(link.rate), shown(lighting_in_words(scenario, link)), count_figure(link.strands),
                   figure(link.glass, scenario), figure(worse.loss_db, 2), figure(worse.limit_db, 2),
                   figure(worse.margin_db, 2)});
    }
    return table;
}

TextTable findings_table(const LayoutResult& result) {
    TextTable table({{"Severity", Align::left},
                     {"Where", Align::left, true},
                     {"What", Align::left, true},
                     {"Measured", Align::right},
                     {"Limit", Align::right},
                     {"Unit", Align::left}});
    for (const Finding& finding : result.findings) {
        table.add({id_of(finding.severity), shown(finding.where), shown(finding.what), figure(finding.measured, 2),
                   figure(finding.limit, 2), shown(finding.unit)});
    }
    return table;
}

}  // namespace spadework::report
