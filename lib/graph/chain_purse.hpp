#pragma once

// What the stops pay on one edge, brought back to what the edge may pay.

#include <span>

namespace spadework::graph::chains {

struct SlotPrice;

/// The edge's figures: what opens it, and what one cable pays on it.
struct EdgeFigures {
    double opening = 0.0;
    double charge = 0.0;
};

/// Moves the prices by `length` times their flows, and `hop_charge` by `length` times the sum of the arrivals' flows;
/// then takes what is the nearest point such that none is negative, the hop charge is `charge` at most, and the larger
/// direction's sum, the arrivals' sum and the hop charge together are opening + charge at most. Gives back the squared
/// length of the whole move.
double settle_purse(EdgeFigures edge, std::span<SlotPrice* const> prices, double length, double& hop_charge);

}  // namespace spadework::graph::chains
