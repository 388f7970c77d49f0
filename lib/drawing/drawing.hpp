#pragma once

// Pictures of a comparison as SVG 1.1 text: each a whole <svg> element that stands alone as a file or inline in an HTML
// page. No scripts, no links, no fonts of their own. The same data draws the same bytes. Every picture carries <title>
// and <desc> for those who cannot see it, works in black and white (dashes and patterns, not colour alone), and shows
// names from the site file as text, whatever is in them.

#include <string>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"
#include "strands/strand_study.hpp"
#include "study/study.hpp"

namespace spadework::drawing {

/// Size and naming of one picture.
struct Frame {
    double width = 960;     ///< In SVG user units (CSS pixels at natural size); the height follows from the content.
    std::string id_prefix;  ///< Before every id in the picture, so that several may stand in one page.
    bool own_file = false;  ///< With an XML declaration, to be kept as a file.
};

/// The plan of a feasible layout to scale, north up: trenches by ground, existing ducts and pole lines, trunks, drops,
/// home runs and hops beside them, enclosures, buildings, the hub, open ground and obstacles, scale bar in the site's
/// unit, north arrow, legend. One named group a layer. Labels do not overlap each other or the symbols; those that find
/// no room are numbered and listed beside the plan.
std::string plan_svg(const Scenario& scenario, const LayoutResult& result, const Frame& frame);

/// Layouts side by side: one bar each, stacked by cost category, with the bound marked; infeasible ones with why.
std::string cost_bars_svg(const Scenario& scenario, const Comparison& comparison, const Frame& frame);

/// Trench length by ground for each layout, existing ducts and pole lines apart.
std::string ground_bars_svg(const Scenario& scenario, const Comparison& comparison, const Frame& frame);

/// The map with each allowed enclosure place marked by what it costs beyond the best one, barred places apart.
std::string enclosure_map_svg(const Scenario& scenario, const EnclosureStudy& study, const Frame& frame);

/// Price now, expected later cost and their sum over the cable sizes on offer, the recommended size marked.
std::string strand_curve_svg(const Scenario& scenario, const StrandStudy& study, const Frame& frame);

}  // namespace spadework::drawing
