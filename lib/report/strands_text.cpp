#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/paragraphs.hpp"
#include "report/shown_text.hpp"
#include "report/strands_report.hpp"
#include "report/text_table.hpp"

namespace spadework::report {

namespace {

std::string whole(int value) {
    return figure(std::int64_t{value});
}

/// With a full stop at its end.
std::string as_sentence(std::string text) {
    if (!text.empty() && text.back() != '.') text += '.';
    return text;
}

std::string need_table(const Scenario& scenario, const StrandStudy& study) {
    TextTable table({{"Building", Align::left, true}, {"Links", Align::right}, {"Strands", Align::right}});
    int links = 0;
    for (const BuildingStrands& building : study.buildings) {
        table.add({shown(building_at(scenario, building.building).id), whole(building.links), whole(building.strands)});
        links += building.links;
    }
    table.add_total({"In use", whole(links), whole(study.need.in_use)});
    table.add({"Spare, by the spare policy", "", whole(study.need.spare)});
    table.add({"Headroom for growth", "", whole(study.need.headroom)});
    table.add_total({"Together", "", whole(study.need.total())});
    return table.text();
}

std::string growth_table(const Scenario& scenario) {
    TextTable table({{"Building that may come", Align::left, true},
                     {"Year", Align::right},
                     {"Links", Align::right},
                     {"Chance (%)", Align::right}});
    for (const FutureBuilding& building : scenario.growth.buildings) {
        table.add({shown(building.name.empty() ? building.id : building.name), whole(building.year),
                   whole(building.links), figure(100.0 * building.chance, 1)});
    }
    return table.text();
}

std::string distribution_table(const StrandStudy& study) {
    TextTable table({{"Strands for named growth", Align::right},
                     {"Chance of exactly so many (%)", Align::right},
                     {"Chance of no more (%)", Align::right}});
    double sum = 0;
    for (std::size_t k = 0; k < study.growth_distribution.size(); ++k) {
        const double chance = study.growth_distribution[k];
        sum += chance;
        if (chance <= 0) continue;
        table.add({figure(static_cast<std::int64_t>(k)), figure(100.0 * chance, 2), figure(100.0 * sum, 2)});
    }
    return table.text();
}

std::string size_table(const Scenario& scenario, const StrandStudy& study) {
    TextTable table({{"Strands", Align::right},
                     {"Cable", Align::left, true},
                     {fmt::format("Price\n({} a {})", scenario.currency.code, length_unit(scenario)), Align::right},
                     {"Spare\nstrands", Align::right},
                     {"Spare\n(% of use)", Align::right},
                     {"Chance\nenough (%)", Align::right},
                     {"Meets\nthe policy", Align::left},
                     {"", Align::left}});
    for (std::size_t i = 0; i < study.sizes.size(); ++i) {
        const CableSizeOption& size = study.sizes[i];
        const CableProduct& product = scenario.catalogue.cables[static_cast<std::size_t>(size.product)];
        table.add({whole(product.strands), shown(product.id),
                   figure(price_a_length_unit(size.price_per_metre, scenario), scenario.currency),
                   whole(size.spare_strands), figure(size.headroom_percent, 1), figure(100.0 * size.chance_enough, 1),
                   size.meets_policy ? "yes" : "no", static_cast<int>(i) == study.recommended ? "recommended" : ""});
    }
    return table.text();
}

}  // namespace

std::string strands_text(const Scenario& scenario, const StrandStudy& study) {
    std::string text = paragraph(shown(scenario.name));
    text += paragraph("A trunk that serves every building on this site.");
    text += heading("Strands needed") + need_table(scenario, study);
    if (!scenario.growth.buildings.empty()) {
        text += heading(fmt::format("Growth named for the next {} years", scenario.growth.horizon_years));
        text += growth_table(scenario) + "\n" + distribution_table(study);
    }
    text += heading("Cable sizes on offer") + size_table(scenario, study);
    return text + heading("Recommendation") + paragraph(shown(as_sentence(study.reason)));
}

}  // namespace spadework::report
