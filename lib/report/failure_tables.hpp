#pragma once

#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "report/json_writer.hpp"
#include "report/text_table.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// "segment drive", "enclosure at gate", "gear in mill", "hub gear".
std::string failing_part(const Scenario& scenario, const Plan& plan, const Failure& failure);

/// The failures that take down most buildings, with how often and for how long.
TextTable failures_table(const Scenario& scenario, const LayoutResult& result);

/// What to say below that table: how many more failures there are, expected minutes, the second way. Pass them through
/// shown(): they hold names.
std::vector<std::string> failure_sentences(const Scenario& scenario, const LayoutResult& result);

/// The failures that take down most buildings, with how often and for how long, the expected minutes of the worst
/// building, and what a second way around the worst cut would take. Rates are the site's input, and it says so.
std::string failures_text(const Scenario& scenario, const LayoutResult& result);

/// "failures" of a layout: expected minutes a year by building, every failure, the second way.
void write_failures(JsonWriter& json, const Scenario& scenario, const LayoutResult& result);

/// One row a failure, every layout.
std::string failures_csv(const Scenario& scenario, const Comparison& comparison);

/// One sentence on the second way; "" where no cut takes down two buildings.
std::string second_way_sentence(const Scenario& scenario, const LayoutResult& result);

}  // namespace spadework::report
