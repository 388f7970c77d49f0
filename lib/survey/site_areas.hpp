#pragma once

#include "survey/findings.hpp"
#include "survey/surveyed_site.hpp"

namespace spadework::survey {

/// Puts areas into the site: open ground and overlays that come within `reach_metres` of one of its segments, and the
/// obstacles, buildings with an outline among them, that meet such open ground. Areas whose border crosses itself are
/// left out and named in the findings.
void add_areas(SurveyedSite& site, const MapContents& contents, double reach_metres, SurveyFindings& findings);

}  // namespace spadework::survey
