#include <fmt/format.h>

#include "plan_file/plan_file.hpp"
#include "report/csv_writer.hpp"
#include "report/lookup.hpp"
#include "report/sheet_columns.hpp"
#include "report/sheets_csv.hpp"
#include "sheets/joined_strands.hpp"
#include "sheets/test_sheet.hpp"

namespace spadework::report {

namespace {

/// What tells the strand apart: layout, building, link, strand of the link, its way.
void write_strand(CsvWriter& csv, const Scenario& scenario, const LayoutResult& layout, const StrandTest& test) {
    const PlannedLink& link = layout.plan->links[static_cast<std::size_t>(test.link)];
    csv.text(id_of(layout.layout)).text(building_at(scenario, link.building).id).whole(link.number);
    csv.whole(test.leg).text(spadework::way_of(*layout.plan, layout.strand_map, test));
}

/// What is plugged in front of this strand's receivers once it has been tested without: "att-5 at mill".
std::string attenuators_after(const Scenario& scenario, const PlannedLink& link, const StrandTest& test) {
    std::string text;
    const auto add = [&](std::optional<int> attenuator, const std::string& at) {
        if (!attenuator) return;
        const std::string& id = scenario.catalogue.attenuators[static_cast<std::size_t>(*attenuator)].id;
        text += (text.empty() ? "" : ", ") + id + " at " + at;
    };
    // Of two strands the first leads away from where the link begins, the second back to it.
    const bool both_ways = link.strands == 1;
    if (both_ways || test.leg == 1) add(link.attenuator_at_end, building_at(scenario, link.building).id);
    if (both_ways || test.leg == 2) add(link.attenuator_at_start, link_origin(scenario, link));
    return text;
}

void write_reading_row(CsvWriter& csv, const Scenario& scenario, const StrandTest& test, const LossLimit& limit,
                       const std::string& after) {
    csv.number(plain(limit.wavelength_nm, 3)).number(plain(test.glass, scenario));
    // The very thousandths that a plan file keeps and an acceptance holds readings against.
    for (const double decibels : {limit.calculated_db, limit.pass_db, limit.least_db})
        csv.number(plain(static_cast<double>(plan_file::thousandths(decibels)) / 1000, 3));
    for (int blank = 0; blank < 4; ++blank)
        csv.text("");
    csv.text(after).end_row();
}

}  // namespace

std::string test_sheet_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "building", "link", "strand", "way", "measured_from", "wavelength_nm",
                   with_unit("fibre", scenario), "calculated_loss_db", "pass_limit_db", "too_good_below_db",
                   "measured_loss_db", with_unit("measured_length", scenario), "date", "tested_by",
                   "attenuator_after_test"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan& plan) {
        for (const StrandTest& test : test_sheet(scenario, plan, layout.strand_map)) {
            const PlannedLink& link = plan.links[static_cast<std::size_t>(test.link)];
            for (const std::string& from : {link_origin(scenario, link), building_at(scenario, link.building).id}) {
                for (const LossLimit& limit : test.limits) {
                    write_strand(csv, scenario, layout, test);
                    csv.text(from);
                    write_reading_row(csv, scenario, test, limit, attenuators_after(scenario, link, test));
                }
            }
        }
    });
    return csv.table();
}

std::string trace_events_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "building", "link", "strand", "way", "event", "what", "where",
                   with_unit("distance_from_hub_end", scenario), with_unit("distance_from_building", scenario)});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan& plan) {
        for (const StrandTest& test : test_sheet(scenario, plan, layout.strand_map)) {
            for (std::size_t e = 0; e < test.events.size(); ++e) {
                const TraceEvent& event = test.events[e];
                write_strand(csv, scenario, layout, test);
                csv.whole(static_cast<std::int64_t>(e) + 1).text(event.what).text(event.where);
                csv.number(plain(event.distance, scenario));
                csv.number(plain(test.glass - event.distance, scenario)).end_row();
            }
        }
    });
    return csv.table();
}

}  // namespace spadework::report
