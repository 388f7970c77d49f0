#pragma once

#include <cstdint>
#include <string>

#include "scenario/scenario.hpp"
#include "study/study.hpp"

namespace spadework::report {

/// Every place ranked for the enclosure, the places barred and why, and the best sets of one, two or more.
std::string enclosure_text(const Scenario& scenario, const EnclosureStudy& study);

/// The same as one JSON object: `ranking` with the totals and metres of each place, `over_best` and `why`; `best`, the
/// first of them in full as in the comparison; `barred` [{place, reason}]; `by_count` [{enclosures, result}] in full.
std::string enclosure_json(const Scenario& scenario, const EnclosureStudy& study, std::uint64_t seed);

}  // namespace spadework::report
