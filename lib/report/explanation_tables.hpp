#pragma once

// Why the cheapest plan is as it is, as tables and remarks for every kind of report.

#include <optional>
#include <string>
#include <vector>

#include "report/text_table.hpp"
#include "scenario/scenario.hpp"
#include "study/explanation.hpp"

namespace spadework::report {

/// What the amounts are, whether the work was stopped early, and whether a cheaper plan turned up; or that there is no
/// plan to explain.
std::vector<std::string> explanation_opening(const std::optional<Explanation>& explanation);

/// What the tables below show.
std::string enclosure_reasons_opening(const Explanation& explanation);
std::string building_reasons_opening(const Explanation& explanation);

/// Each enclosure: what the best plans without one at its place, and with one fewer, cost more.
TextTable enclosure_reasons_table(const Scenario& scenario, const Explanation& explanation);

/// Each building: its route, the next best way of serving it, and what is saved without it.
TextTable building_reasons_table(const Scenario& scenario, const Explanation& explanation);

/// What was not found of either and why, and which figures are proved.
std::vector<std::string> enclosure_remarks(const Scenario& scenario, const Explanation& explanation);
std::vector<std::string> building_remarks(const Scenario& scenario, const Explanation& explanation);

/// "hub", the place of an enclosure, or "after" a building.
std::string point_in_words(const Scenario& scenario, const Service& service);

}  // namespace spadework::report
