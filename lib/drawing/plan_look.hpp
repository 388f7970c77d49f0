#pragma once

// Line styles of a plan: told apart by width and dashes, so that no colour is needed.

#include <array>
#include <string>

#include "drawing/ground_look.hpp"
#include "drawing/picture.hpp"
#include "layout/plan.hpp"

namespace spadework::drawing {

struct RoleLook {
    CableRole role;
    const char* layer;  ///< Name of the group: "trunks".
    const char* name;   ///< "Trunk cable".
    double width;
    const char* dashes;  ///< Empty for an unbroken line.
};

/// Every role, thickest first.
inline constexpr std::array<RoleLook, 5> role_looks = {{
    {CableRole::trunk, "trunks", "Trunk cable", 2.8, ""},
    {CableRole::home_run, "home-runs", "Home run", 1.4, "8 2.5"},
    {CableRole::drop, "drops", "Drop", 1.3, ""},
    {CableRole::hop, "hops", "Hop between buildings", 1.5, "9 2.5 2 2.5"},
    {CableRole::closing, "closing", "Closing cable of a ring", 1.6, "2.5 2.5"},
}};

/// Draws a line of a trench, of an existing duct (two thin lines) or of a pole line (dots on a thin line).
void write_ground_line(SvgWriter& svg, const std::string& path, const GroundLook& look, std::string_view title);

/// Draws a line of a cable, `thickness` times as wide as its role's look.
void write_cable_line(SvgWriter& svg, const std::string& path, const RoleLook& look, std::string_view title,
                      double thickness = 1);

}  // namespace spadework::drawing
