// Sheets that go strand by strand, label by label and stretch by stretch.

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/sheet_tables.hpp"
#include "report/shown_text.hpp"
#include "sheets/joined_strands.hpp"
#include "sheets/labels.hpp"
#include "sheets/pull_schedule.hpp"
#include "sheets/test_sheet.hpp"

namespace spadework::report {

namespace {

const PlannedCable& cable_of(const Plan& plan, const MappedStrand& strand) {
    return plan.cables[static_cast<std::size_t>(strand.cable)];
}

/// "hub panel 3, gear 1 port 2".
std::string end_in_words(const StrandEnd& end) {
    const std::string port = port_in_words(end);
    return adapter_in_words(end) + (port.empty() ? "" : ", " + port);
}

/// "mill link 1, from hub", or the purpose of a dark strand.
std::string use_in_words(const Scenario& scenario, const Plan& plan, const MappedStrand& strand) {
    if (!strand.link) return name_of(strand.purpose);
    const PlannedLink& link = plan.links[static_cast<std::size_t>(*strand.link)];
    return fmt::format("{} link {}, light {}", shown(building_at(scenario, link.building).id), link.number,
                       light_in(plan, strand));
}

std::string decibels(double value) {
    return figure(value, 3);
}

}  // namespace

TextTable strand_map_table(const Scenario& scenario, const LayoutResult& layout) {
    TextTable table({{"Strand", Align::left, true},
                     {"Tube", Align::left, true},
                     {"Colour", Align::left, true},
                     {"Use", Align::left, true},
                     {"Near end", Align::left, true},
                     {"Far end", Align::left, true},
                     {"Joined to", Align::left, true}});
    const StrandMap& map = layout.strand_map;
    const auto joined = joined_strands(map);
    for (std::size_t s = 0; s < map.size(); ++s) {
        const auto other = joined.find(s);
        const std::string joined_to =
            other == joined.end() ? ""
                                  : strand_label(cable_of(*layout.plan, map[other->second]), map[other->second].number);
        table.add({shown(strand_label(cable_of(*layout.plan, map[s]), map[s].number)), shown(map[s].colour.tube),
                   shown(map[s].colour.strand), use_in_words(scenario, *layout.plan, map[s]), end_in_words(map[s].near),
                   end_in_words(map[s].far), shown(joined_to)});
    }
    return table;
}

TextTable label_table(const Scenario& scenario, const LayoutResult& layout) {
    TextTable table({{"Place", Align::left, true},
                     {"Marks", Align::left},
                     {"Line 1", Align::left, true},
                     {"Line 2", Align::left, true}});
    for (const Label& label : labels(scenario, *layout.plan, layout.strand_map)) {
        table.add({shown(place_at(scenario, label.place).id), label.marks, shown(label.line_1), shown(label.line_2)});
    }
    return table;
}

TextTable pull_table(const Scenario& scenario, const Plan& plan) {
    TextTable table({{"Cable", Align::left, true},
                     {"From", Align::left, true},
                     {"To", Align::left, true},
                     {fmt::format("Length\n({})", length_unit(scenario)), Align::right},
                     {"Sharp\nbends", Align::right},
                     {"Turned\n(degrees)", Align::right},
                     {"Least radius\npulling (mm)", Align::right},
                     {"At rest\n(mm)", Align::right}});
    for (const CablePull& pull : pull_schedule(scenario, plan)) {
        for (const PullStretch& stretch : pull.stretches) {
            table.add({shown(plan.cables[static_cast<std::size_t>(pull.cable)].id),
                       shown(place_at(scenario, stretch.from).id), shown(place_at(scenario, stretch.to).id),
                       figure(stretch.length, scenario), figure(std::int64_t{stretch.bends}),
                       figure(stretch.turned_degrees, 0), figure(pull.radius_pulling.millimetres()),
                       figure(pull.radius_installed.millimetres())});
        }
    }
    return table;
}

TextTable test_sheet_table(const Scenario& scenario, const LayoutResult& layout) {
    const Plan& plan = *layout.plan;
    TextTable table({{"Building,\nlink/strand", Align::left, true},
                     {"Way", Align::left, true},
                     {"nm", Align::right},
                     {fmt::format("Fibre\n({})", length_unit(scenario)), Align::right},
                     {"Pass up\nto (dB)", Align::right},
                     {"Too good\nbelow (dB)", Align::right},
                     {"Read from\nthe hub's end", Align::left},
                     {"Read from\nthe building", Align::left},
                     {"Length\nread", Align::left}});
    for (const StrandTest& test : test_sheet(scenario, plan, layout.strand_map)) {
        const PlannedLink& link = plan.links[static_cast<std::size_t>(test.link)];
        for (const LossLimit& limit : test.limits) {
            table.add({fmt::format("{} {}/{}", shown(building_at(scenario, link.building).id), link.number, test.leg),
                       shown(spadework::way_of(plan, layout.strand_map, test)), plain(limit.wavelength_nm, 3),
                       figure(test.glass, scenario), decibels(limit.pass_db), decibels(limit.least_db), "", "", ""});
        }
    }
    return table;
}

}  // namespace spadework::report
