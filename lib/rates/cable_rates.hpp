#pragma once

// How long a cable is ordered, and what it costs as it is bought, ended and pulled.

#include "catalogue/catalogue.hpp"
#include "scenario/scenario.hpp"
#include "units/length.hpp"
#include "units/money.hpp"

namespace spadework {

/// Lengths of one cable from the map to the order.
struct CableLengths {
    Length route;       ///< Along the segments.
    Length with_slack;  ///< Route, rise and coil at both ends, coils in the handholes passed, ordering allowance.
    Length ordered;     ///< Rounded up to what can be bought.
    int joints = 0;     ///< Where it is longer than the longest factory length.
};

/// Fibre that light runs through in a cable: a factory-made one as it is ordered, for nobody cuts it; one that is
/// spliced as it is cut, with its slack.
Length glass_of(const CableLengths& lengths, const Rules& rules);

/// Splices that light passes in a cable: its joints and, where ends are spliced, one at either end.
int splices_in(const CableLengths& lengths, const Rules& rules);

/// Lengths of a cable that runs `route` and passes `handholes` handholes between its ends.
CableLengths cable_lengths(const CableProduct& cable, Length route, int handholes, const Rules& rules);

/// What a metre of route adds to a cable's price before rounding: its price a metre with the ordering allowance,
/// rounded down to a thousandth of a minor unit.
UnitPrice least_price_per_route_metre(const CableProduct& cable, const Rules& rules);

/// What a cable of no route at all costs before rounding: rise and coils at both ends, with the ordering allowance,
/// rounded down to a minor unit.
Money least_price_of_ends(const CableProduct& cable, const Rules& rules);

/// Work and material to end a cable at one place, for `strands` strands in use.
struct EndWork {
    Money material;  ///< Factory ends, or pigtails.
    WorkTime time;   ///< Plugging, or splicing with its set-up.
    UnitPrice rate;  ///< An hour of whoever does it.
    [[nodiscard]] Money total() const { return material + amount(rate, time); }
};
EndWork end_work(const CableProduct& cable, int strands, const Scenario& scenario);

/// Joining two pieces of a cable on the way: every strand of it is spliced.
EndWork joint_work(const CableProduct& cable, const Scenario& scenario);

/// Testing `strands` strands end to end.
struct TestWork {
    WorkTime time;
    Money amount;
};
TestWork test_work(int strands, const Labour& labour);

}  // namespace spadework
