#pragma once

// A risk study for people and programs. All forms say the same; the sample is the whole one, from draw 0.

#include <string>
#include <utility>
#include <vector>

#include "doubt/risk_study.hpp"

namespace spadework::report {

std::string risk_text(const RiskSample& sample, const RiskStudy& study);

/// Amounts in the currency's major unit, shares from 0 to 1 unless named percent.
std::string risk_json(const RiskSample& sample, const RiskStudy& study);

/// One page to open and print: no script, nothing loaded from elsewhere.
std::string risk_html(const RiskSample& sample, const RiskStudy& study);

/// risk-layouts.csv, risk-drivers.csv, risk-contingency.csv, risk-draws.csv: name and table of each.
std::vector<std::pair<std::string, std::string>> risk_csv(const RiskSample& sample, const RiskStudy& study);

/// A part of a sample as a file for merging: strict JSON with whole numbers, totals in minor units, two a layout in
/// each draw (the cheapest plan known, and today's), -1 where nothing can be built. Read back by read_shard().
std::string shard_json(const RiskSample& sample);

}  // namespace spadework::report
