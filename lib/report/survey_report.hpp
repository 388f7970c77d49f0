#pragma once

#include <string>

#include "survey/findings.hpp"

namespace spadework::report {

/// What a survey found and assumed: files, metres by ground, joins, crossings left apart, parts left over, laterals,
/// what is left out. Long lists end after some twenty rows with how many more there are, unless `all` is wanted.
std::string survey_text(const std::string& site_name, const survey::SurveyFindings& findings, bool all);

/// The same, whole, as one JSON object; lengths are metres to a millimetre, positions longitude and latitude.
std::string survey_json(const std::string& site_name, const survey::SurveyFindings& findings);

}  // namespace spadework::report
