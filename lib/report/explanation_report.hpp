#pragma once

#include <optional>
#include <string>

#include "report/json_writer.hpp"
#include "scenario/scenario.hpp"
#include "study/explanation.hpp"

namespace spadework::report {

/// The section "Why this plan": for each enclosure and each building of the cheapest layout the next best alternative
/// and what leaving it out comes to. Says so where there is no plan to explain.
std::string explanation_text(const Scenario& scenario, const std::optional<Explanation>& explanation);

/// The same as one JSON value, an object or null: `layout`, `interrupted`, `enclosures` and `buildings`. Money in the
/// currency's major unit, lengths in metres; what was not found or not proved is null.
void write_explanation(JsonWriter& json, const Scenario& scenario, const std::optional<Explanation>& explanation);

/// The same as comma-separated values, one row an alternative: each enclosure elsewhere and left out, each building
/// served otherwise and left out. Headings alone where there is no plan to explain.
std::string explanation_csv(const Scenario& scenario, const std::optional<Explanation>& explanation);

}  // namespace spadework::report
