#pragma once

// What is said of the places for the enclosure, for every kind of report. Sentences may hold names of any origin: pass
// them through shown().

#include <string>
#include <vector>

#include "report/text_table.hpp"
#include "scenario/scenario.hpp"
#include "study/study.hpp"

namespace spadework::report {

/// Each place that can take the enclosure, cheapest first, with its total and metres.
TextTable ranking_table(const Scenario& scenario, const EnclosureStudy& study);

/// Where one enclosure costs least and how much less than at the next best place, or why none can stand anywhere.
std::string best_sentence(const Scenario& scenario, const EnclosureStudy& study);

/// What makes each place but the best dear.
std::vector<std::string> why_dear(const Scenario& scenario, const EnclosureStudy& study);

/// Places barred, those with one reason together.
std::vector<std::string> why_barred(const Scenario& scenario, const EnclosureStudy& study);

/// The best plan found with 1, 2, … enclosures.
TextTable count_table(const Scenario& scenario, const EnclosureStudy& study);

}  // namespace spadework::report
