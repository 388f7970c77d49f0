#include "report/strand_tables.hpp"

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

std::string whole(int value) {
    return figure(std::int64_t{value});
}

/// What is needed beyond the strands in use, and all together.
void add_reserves(TextTable& table, const StrandStudy& study) {
    table.add({"Spare, by the spare policy", "", whole(study.need.spare)});
    table.add({"Headroom for growth", "", whole(study.need.headroom)});
    table.add_total({"Together", "", whole(study.need.total())});
}

}  // namespace

TextTable strand_need_table(const Scenario& scenario, const StrandStudy& study) {
    TextTable table({{"Building", Align::left, true}, {"Links", Align::right}, {"Strands", Align::right}});
    int links = 0;
    for (const BuildingStrands& building : study.buildings) {
        table.add({shown(building_at(scenario, building.building).id), whole(building.links), whole(building.strands)});
        links += building.links;
    }
    table.add_total({"In use", whole(links), whole(study.need.in_use)});
    add_reserves(table, study);
    return table;
}

TextTable strand_sum_table(const StrandStudy& study) {
    TextTable table({{"For", Align::left, true}, {"Links", Align::right}, {"Strands", Align::right}});
    int links = 0;
    for (const BuildingStrands& building : study.buildings)
        links += building.links;
    table.add({"In use", whole(links), whole(study.need.in_use)});
    add_reserves(table, study);
    return table;
}

TextTable growth_table(const Scenario& scenario) {
    TextTable table({{"Building that may come", Align::left, true},
                     {"Year", Align::right},
                     {"Links", Align::right},
                     {"Chance (%)", Align::right}});
    for (const FutureBuilding& building : scenario.growth.buildings) {
        table.add({shown(building.name.empty() ? building.id : building.name), whole(building.year),
                   whole(building.links), figure(100.0 * building.chance, 1)});
    }
    const double rate = scenario.growth.unnamed_links_per_year;
    if (rate > 0) {
        table.add({fmt::format("Unnamed, {} links a year", plain(rate, 3)), "",
                   figure(rate * scenario.growth.horizon_years, 1), ""});
    }
    return table;
}

TextTable growth_chance_table(const StrandStudy& study) {
    TextTable table({{"Strands for growth", Align::right},
                     {"Chance of exactly so many (%)", Align::right},
                     {"Chance of no more (%)", Align::right}});
    double sum = 0;
    for (std::size_t k = 0; k < study.growth_distribution.size(); ++k) {
        const double chance = study.growth_distribution[k];
        sum += chance;
        if (chance <= 0) continue;
        table.add({figure(static_cast<std::int64_t>(k)), figure(100.0 * chance, 2), figure(100.0 * sum, 2)});
        if (sum >= 0.99995) break;  // What is likelier than that reads as certain.
    }
    return table;
}

TextTable cable_offer_table(const Scenario& scenario, const StrandStudy& study) {
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
    return table;
}

}  // namespace spadework::report
