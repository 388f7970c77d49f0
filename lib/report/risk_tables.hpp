#pragma once

// The tables and sentences that the text and the page of a risk study share.

#include <string>
#include <vector>

#include "doubt/risk_study.hpp"
#include "report/text_table.hpp"

namespace spadework::report {

/// "10,000 draws of 14 ranges from 6 sources of doubt."
std::string risk_opening(const RiskSample& sample, const RiskStudy& study);
/// What to choose and how sure that is; or that nothing can be built.
std::string risk_verdict(const RiskSample& sample, const RiskStudy& study);
/// What was cut short; "" where nothing was.
std::string risk_interrupted(const RiskSample& sample);

TextTable outlook_table(const RiskSample& sample, const RiskStudy& study);
TextTable error_table(const RiskSample& sample, const RiskStudy& study);
TextTable choice_table(const RiskSample& sample, const RiskStudy& study);
TextTable driver_table(const RiskSample& sample, const RiskStudy& study);
TextTable contingency_table(const RiskSample& sample, const RiskStudy& study);
TextTable pool_table(const RiskSample& sample, const RiskStudy& study);

/// What the tables mean, one text each.
std::string outlook_note();
std::string choice_note();
std::string driver_note(const RiskSample& sample, const RiskStudy& study);
std::string contingency_note(const RiskSample& sample, const RiskStudy& study);
std::string pool_note(const RiskSample& sample);

/// "Home runs: why it cannot be built", for each layout without a plan.
std::vector<std::string> layouts_without_plan(const RiskSample& sample);

/// Name of the recommended layout; there must be one.
std::string recommended_name(const RiskSample& sample, const RiskStudy& study);

}  // namespace spadework::report
