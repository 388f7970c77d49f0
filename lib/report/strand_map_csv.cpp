#include "report/csv_writer.hpp"
#include "report/lookup.hpp"
#include "report/sheet_columns.hpp"
#include "report/sheets_csv.hpp"
#include "sheets/joined_strands.hpp"
#include "sheets/labels.hpp"

namespace spadework::report {

namespace {

void write_end(CsvWriter& csv, const Scenario& scenario, const StrandEnd& end) {
    csv.text(place_at(scenario, end.place).id).text(adapter_in_words(end)).text(port_in_words(end));
}

void write_strand(CsvWriter& csv, const Scenario& scenario, const Plan& plan, const MappedStrand& strand) {
    const PlannedCable& cable = plan.cables[static_cast<std::size_t>(strand.cable)];
    csv.text(cable.id).whole(strand.number).text(strand_label(cable, strand.number));
    csv.text(strand.colour.tube).text(strand.colour.strand).text(name_of(strand.purpose));
    if (strand.link) {
        const PlannedLink& link = plan.links[static_cast<std::size_t>(*strand.link)];
        csv.text(building_at(scenario, link.building).id).whole(link.number);
    } else {
        csv.text("").text("");
    }
    csv.text(light_in(plan, strand));
    write_end(csv, scenario, strand.near);
    write_end(csv, scenario, strand.far);
}

}  // namespace

std::string strand_map_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "cable", "strand", "label", "tube", "colour", "purpose", "building", "link", "light",
                   "near_place", "near_adapter", "near_port", "far_place", "far_adapter", "far_port", "joined_to"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan& plan) {
        const auto joined = joined_strands(layout.strand_map);
        for (std::size_t s = 0; s < layout.strand_map.size(); ++s) {
            csv.text(id_of(layout.layout));
            write_strand(csv, scenario, plan, layout.strand_map[s]);
            const auto other = joined.find(s);
            if (other == joined.end()) {
                csv.text("").end_row();
                continue;
            }
            const MappedStrand& strand = layout.strand_map[other->second];
            csv.text(strand_label(plan.cables[static_cast<std::size_t>(strand.cable)], strand.number)).end_row();
        }
    });
    return csv.table();
}

std::string labels_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "place", "marks", "line_1", "line_2"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan& plan) {
        for (const Label& label : labels(scenario, plan, layout.strand_map)) {
            csv.text(id_of(layout.layout)).text(place_at(scenario, label.place).id).text(label.marks);
            csv.text(label.line_1).text(label.line_2).end_row();
        }
    });
    return csv.table();
}

}  // namespace spadework::report
