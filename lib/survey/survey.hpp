#pragma once

// From drawn maps to a site: what is drawn becomes ways, buildings and areas, the ways a network that hangs together,
// and the buildings stand on it.

#include <optional>
#include <vector>

#include "diagnostics/diagnostic.hpp"
#include "drawn_map/drawn_map.hpp"
#include "survey/findings.hpp"
#include "survey/survey_options.hpp"
#include "survey/surveyed_site.hpp"
#include "survey/tag_table.hpp"

namespace spadework::survey {

struct Survey {
    SurveyedSite site;
    SurveyFindings findings;
};

/// Surveys the maps, which must be in degrees. Nothing, and every reason, where no site can be made: no lines, no hub,
/// a hub too far from every line, a building that no map has. The site does not depend on the order of the maps or of
/// the features in them.
std::optional<Survey> survey_maps(const std::vector<drawn_map::DrawnMap>& maps, const TagTable& table,
                                  const SurveyOptions& options, Diagnostics& diagnostics);

}  // namespace spadework::survey
