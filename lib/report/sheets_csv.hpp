#pragma once

// The sheets a crew works from, as comma-separated values: every layout in each, told apart by the first column.

#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "report/csv_tables.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// One row a product: what to buy, in all, with its price and amount.
std::string materials_csv(const Scenario& scenario, const Comparison& comparison);
/// One row a product and ordered length; needed length, and what the rest of it costs.
std::string cable_order_csv(const Scenario& scenario, const Comparison& comparison);
/// One row a strand of a cable: colour, purpose, adapters and ports at both ends, the strand it is joined to.
std::string strand_map_csv(const Scenario& scenario, const Comparison& comparison);
/// One row a label, in the order of a label printer's work: cables by end, strands by end, enclosures, gear.
std::string labels_csv(const Scenario& scenario, const Comparison& comparison);
/// One row a stretch between two points where a cable can be reached.
std::string pull_schedule_csv(const Scenario& scenario, const Comparison& comparison);
/// One row a trade and task, a total a trade in crew days.
std::string crew_hours_csv(const Scenario& scenario, const Comparison& comparison);
/// One row a cable, factory-made ends against splices, and the whole plan in the last.
std::string terminations_csv(const Scenario& scenario, const Comparison& comparison);
/// One row a strand, direction and wavelength, with columns left blank for readings.
std::string test_sheet_csv(const Scenario& scenario, const Comparison& comparison);
/// One row for each thing a reflectometer should show on a strand.
std::string trace_events_csv(const Scenario& scenario, const Comparison& comparison);

/// All of the above with the names to keep them under.
std::vector<NamedTable> sheet_tables(const Scenario& scenario, const Comparison& comparison);

}  // namespace spadework::report
