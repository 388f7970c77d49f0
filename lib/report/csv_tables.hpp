#pragma once

#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// The tables of a comparison as comma-separated values, every layout in each, told apart by the first column. Lengths
/// are in the site's unit, which the headings name ("length_m" or "length_ft"); money is in the currency's major unit.

/// One row a layout: totals, bound, gap, a column for each cost category, metres, strands, worst cut and margin.
std::string layouts_csv(const Scenario& scenario, const Comparison& comparison);
/// One row for each line of each bill.
std::string costs_csv(const Scenario& scenario, const Comparison& comparison);
/// One row for each segment used, existing ducts and pole lines included.
std::string trenches_csv(const Scenario& scenario, const Comparison& comparison);
std::string cables_csv(const Scenario& scenario, const Comparison& comparison);
std::string links_csv(const Scenario& scenario, const Comparison& comparison);
std::string enclosures_csv(const Scenario& scenario, const Comparison& comparison);
std::string findings_csv(const Scenario& scenario, const Comparison& comparison);

/// A table and the name to keep it under: "layouts.csv".
struct NamedTable {
    std::string name;
    std::string content;
};

/// All of the above, and the sheets a crew works from (sheets_csv.hpp).
std::vector<NamedTable> csv_tables(const Scenario& scenario, const Comparison& comparison);

}  // namespace spadework::report
