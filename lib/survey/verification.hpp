#pragma once

#include <string>
#include <vector>

#include "survey/findings.hpp"
#include "survey/surveyed_site.hpp"

namespace spadework::survey {

/// Checks a surveyed site with simple code that shares nothing with what made it: ids are unique, positions are
/// degrees, every segment ends at its places, has a length, and that length agrees with one measured another way (to
/// 0.1 % and 1 mm); usable segments join every building to the hub; metres by ground and laterals add up to the
/// segments. Returns what is wrong; anything is a bug.
std::vector<std::string> violations_of(const SurveyedSite& site, const SurveyFindings& findings);

}  // namespace spadework::survey
