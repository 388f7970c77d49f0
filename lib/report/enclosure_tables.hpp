#pragma once

// What is said of the places for the enclosure, for every kind of report. Sentences may hold names of any origin: pass
// them through shown().

#include <string>
#include <vector>

#include "report/text_table.hpp"
#include "scenario/scenario.hpp"
#include "study/study.hpp"

namespace spadework::report {

/// Places that can take the enclosure, cheapest first, at most so many of them, with their totals and metres.
TextTable ranking_table(const Scenario& scenario, const EnclosureStudy& study, std::size_t most);

/// What lies beyond the first so many places: how many, and up to how much dearer. "" where there are no more.
std::string further_places_sentence(const Scenario& scenario, const EnclosureStudy& study, std::size_t most);

/// Every place as comma-separated values: rank, total, what it costs beyond the best, gap, metres, and what makes it
/// dear; then the places barred, with why.
std::string places_csv(const Scenario& scenario, const EnclosureStudy& study);

/// Where one enclosure costs least and how much less than at the next best place, or why none can stand anywhere.
std::string best_sentence(const Scenario& scenario, const EnclosureStudy& study);

/// What makes each of the first so many places but the best dear.
std::vector<std::string> why_dear(const Scenario& scenario, const EnclosureStudy& study, std::size_t most);

/// Places barred, those with one reason together.
std::vector<std::string> why_barred(const Scenario& scenario, const EnclosureStudy& study);

/// The best plan found with 1, 2, … enclosures.
TextTable count_table(const Scenario& scenario, const EnclosureStudy& study);

}  // namespace spadework::report
