#pragma once

// A trunk planned with a thought for what may come, beside the one that is cheapest today, for every kind of report.

#include <string>
#include <vector>

#include "growth/two_stage.hpp"
#include "report/json_writer.hpp"
#include "report/text_table.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// What is worth building and what knowing is worth, or why there is no study.
std::string growth_sentence(const Scenario& scenario, const GrowthStudy& study);

/// Whether the plan for growth can be built and is not the cheapest of today, whose bill is shown elsewhere.
bool has_bill_of_its_own(const GrowthStudy& study);

/// How the figures come about, and how far they are exact.
std::vector<std::string> growth_remarks(const Scenario& scenario, const GrowthStudy& study);

/// The two plans side by side, now and later.
TextTable growth_plans_table(const Scenario& scenario, const GrowthStudy& study);

/// Each building that may come: what connecting it costs on either plan.
TextTable future_drops_table(const Scenario& scenario, const GrowthStudy& study);

/// The places by expected total, at most so many.
TextTable growth_places_table(const Scenario& scenario, const GrowthStudy& study, std::size_t most);

/// All of it as text.
std::string growth_text(const Scenario& scenario, const GrowthStudy& study);

/// As the value of the key that was begun.
void write_growth(JsonWriter& json, const Scenario& scenario, const GrowthStudy& study);

}  // namespace spadework::report
