#pragma once

#include <string>
#include <vector>

namespace spadework {

/// Order in which strands (and the tubes that hold them) are coloured.
struct ColourOrder {
    std::string name;
    std::vector<std::string> colours;
};

/// Blue, orange, green, … as in ANSI/TIA-598.
const ColourOrder& tia_598_order();
/// Red, green, blue, … as in DIN VDE 0888-3: another national order, to show that the order is data.
const ColourOrder& din_vde_0888_order();

/// Colour of a strand in a loose-tube cable: the tube's colour and the strand's within it. Beyond the first round of
/// the order a tracer is named: "blue with black tracer" (and "black with yellow tracer"), one more tracer a round.
struct StrandColour {
    std::string tube;
    std::string strand;
};

/// Colour of strand `number` (from 1) in a cable with `strands_per_tube` strands in each tube.
StrandColour strand_colour(int number, int strands_per_tube, const ColourOrder& order);

}  // namespace spadework
