#pragma once

#include <set>
#include <vector>

#include "drawing/base_map.hpp"
#include "drawing/plan_look.hpp"
#include "drawing/plan_places.hpp"

namespace spadework::drawing {

/// What occurs on a plan and so has to be explained.
struct PlanLegend {
    std::vector<GroundLook> grounds;  ///< Existing ducts and pole lines last.
    std::vector<RoleLook> roles;
    std::set<SignKind> signs;
    AreasSeen areas;
    bool unused = false;   ///< Segments of the map that the plan does not use.
    bool leaders = false;  ///< Lines that lead from a sign to its label.
};

/// The group "legend" from y on; returns the y below it.
double write_plan_legend(SvgWriter& svg, const Ids& ids, double left, double right, double y, const PlanLegend& legend);

}  // namespace spadework::drawing
