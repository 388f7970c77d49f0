#pragma once

// Whether the glass that is laid carries more later.

#include <optional>
#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "units/bit_rate.hpp"

namespace spadework {

/// Whether a link's glass would carry the next rate. Gear is not looked at: it is changed with the optics.
struct NextRate {
    int link = 0;                 ///< Index into the plan's links.
    std::optional<BitRate> rate;  ///< Empty where no faster optic of the strand use is known.
    std::string optic;            ///< Its id in the catalogue, or the name of the standard.
    bool in_catalogue = false;    ///< Otherwise of the standard optics that Spadework knows.
    bool passes = false;          ///< Behind attenuators of the catalogue where it must.
    bool attenuated = false;      ///< It must.
    double margin_db = 0;         ///< Of the worse direction, where it passes.
    std::string limit;            ///< Which fails: "reach", "loss", "overload", "least-length".
    double short_by = 0;          ///< By how much, more than 0 where one fails.
    std::string unit;             ///< "m", "dB".
};

/// One entry a link. The next rate is the slowest above the link's at which the catalogue or the standard optics have
/// an optic of its strand use; at that rate the catalogue's optics are looked at, or the standard ones where it has
/// none. The first that passes counts, or the first of those that fail the fewest limits.
std::vector<NextRate> next_rates(const Scenario& scenario, const Plan& plan);

}  // namespace spadework
