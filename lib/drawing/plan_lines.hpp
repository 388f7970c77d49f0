#pragma once

// The lines of a plan in the picture: each trench once, and each cable beside the trenches it lies in.

#include <string>
#include <vector>

#include "drawing/map_frame.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework::drawing {

struct DrawnTrench {
    Step step;
    std::string ground;  ///< As Way names it: a ground's id, "existing duct" or "pole line".
    std::string method;  ///< Id of the method.
    std::vector<Point> line;
    int cables = 0;       ///< That lie in it.
    bool turned = false;  ///< The first of them passes it from its end to its start.
};

/// In the order of the plan's trenches.
std::vector<DrawnTrench> drawn_trenches(const Scenario& scenario, const Plan& plan, const MapFrame& frame);

/// A cable as one line from end to end, in the order of the plan's cables. Cables in one trench lie side by side, on
/// the right as seen by the first of them; more than a handful lie on each other.
std::vector<std::vector<Point>> drawn_cables(const Scenario& scenario, const Plan& plan,
                                             const std::vector<DrawnTrench>& trenches, const MapFrame& frame);

/// So many that lines have to be thinner to be told apart.
bool has_many_cables(const Plan& plan);

/// The line without points that lie within a fraction of a unit of the straight way past them.
std::vector<Point> simplified(const std::vector<Point>& line);

}  // namespace spadework::drawing
