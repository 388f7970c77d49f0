#pragma once

#include <optional>
#include <string>

#include "rates/link_loss.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// What lights a link.
struct Lighting {
    int optic = 0;                           ///< Index into catalogue.optics.
    std::optional<int> attenuator_at_start;  ///< In front of the receiver where the link begins.
    std::optional<int> attenuator_at_end;    ///< Where it ends; the only one where one strand carries both directions.
};

/// The cheapest optic of the catalogue that runs at least `rate` over the glass, both ways, at both limits, with the
/// strand use the rules ask for. A receiver that would be overloaded gets the cheapest attenuator that brings it inside
/// both limits, and its price counts. Ties go to the earlier. Nothing when no optic does.
std::optional<Lighting> cheapest_lighting(const Scenario& scenario, BitRate rate, const GlassPath& path);

/// The cheapest attenuators with which an optic carries both directions inside all limits, none where it does so
/// without; its index is left at 0. Nothing where no attenuator of the catalogue helps.
std::optional<Lighting> with_attenuators(const Scenario& scenario, const OpticProduct& optic, const GlassPath& path);

/// Where none does: the optic of the rate that fails the fewest limits, by the fewest dB, for checks to say how far it
/// falls short; of another rate where there is none. Nothing when the catalogue has no optic of that strand use.
std::optional<Lighting> nearest_lighting(const Scenario& scenario, BitRate rate, const GlassPath& path);

/// The cheapest optic for a rate whose reach is at least `least_glass`, whatever the loss: for bounds. Nothing when no
/// optic of the catalogue reaches that far at that rate, which proves that no plan can carry the link.
std::optional<int> least_optic(const Scenario& scenario, BitRate rate, Length least_glass);

/// Why no optic carries a link over that glass, in one sentence part: "no optic in the catalogue runs 10G".
std::string why_no_optic(const Scenario& scenario, BitRate rate, const GlassPath& path);

}  // namespace spadework
