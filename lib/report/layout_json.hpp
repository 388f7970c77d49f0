#pragma once

#include "comparison/comparison.hpp"
#include "report/json_writer.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// Writes one layout as an object. Lengths in metres, money in the currency's major unit, losses in dB. Of an
/// infeasible layout only layout, status, reason and findings are filled; the rest is null or empty.
void write_layout(JsonWriter& json, const Scenario& scenario, const LayoutResult& result);

/// Writes total, bound, gap, cost by category, hours and trench metres as members of the current object.
void write_totals(JsonWriter& json, const Scenario& scenario, const LayoutResult& result);

/// Writes `site` {name, digest} and `currency` as members of the current object.
void write_site(JsonWriter& json, const Scenario& scenario);

}  // namespace spadework::report
