#pragma once

// How grounds look: the same in every picture of a site.

#include <string>
#include <vector>

#include "drawing/fill.hpp"
#include "scenario/scenario.hpp"

namespace spadework::drawing {

/// Ids of ways that are no ground, as rates and metres call them.
inline constexpr const char* existing_duct_id = "existing duct";
inline constexpr const char* pole_line_id = "pole line";

/// One kind of thing that a trench goes through, or that is used in its place.
struct GroundLook {
    std::string id;      ///< Of the ground, or one of the two above.
    std::string name;    ///< For people, drawn.
    Fill fill;           ///< In charts; its colour also on plans.
    std::string dashes;  ///< Of lines on plans, as a stroke-dasharray; empty for an unbroken line.
};

/// Looks of the grounds that segments of the site have, in the order of its grounds. Grounds beyond what can be told
/// apart by colour are told apart by dashes.
std::vector<GroundLook> ground_looks(const Scenario& scenario);

GroundLook existing_duct_look();
GroundLook pole_line_look();

/// The look of what a Way calls its ground.
GroundLook look_of(const std::vector<GroundLook>& looks, const std::string& ground_id);

}  // namespace spadework::drawing
