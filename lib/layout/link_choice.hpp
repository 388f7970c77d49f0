#pragma once

#include <optional>
#include <string>

#include "rates/link_loss.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// The cheapest optic of the catalogue that runs at least `rate` over the glass, both ways, at both limits, with the
/// strand use the rules ask for; ties go to the earlier. Nothing when none does.
std::optional<int> cheapest_optic(const Scenario& scenario, BitRate rate, const GlassPath& path);

/// The cheapest optic for a rate whose reach is at least `least_glass`, whatever the loss: for bounds. Nothing when no
/// optic of the catalogue reaches that far at that rate, which proves that no plan can carry the link.
std::optional<int> least_optic(const Scenario& scenario, BitRate rate, Length least_glass);

/// Why no optic carries a link over that glass, in one sentence part: "no optic in the catalogue runs 10G".
std::string why_no_optic(const Scenario& scenario, BitRate rate, const GlassPath& path);

}  // namespace spadework
