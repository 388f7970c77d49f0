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

/// What passing an edge costs all, apart from prices.
struct PassCharges {
    double hop = 0.0;   ///< What every hop pays.
    double ways = 0.0;  ///< Of rings: what a ring's stops pay together, when all of them pass.
};

/// Moves the prices by `length` times their flows, and `hop_charge` by `length` times the sum of the arrivals' flows;
/// then takes what is the nearest point such that none is negative, the hop charge is `charge` at most, and the larger
/// direction's sum, the arrivals' sum and the hop charge together are opening + charge at most. Gives back the squared
/// length of the whole move.
double settle_purse(EdgeFigures edge, std::span<SlotPrice* const> prices, double length, double& hop_charge);

/// The same for rings, where prices know no direction: of the stops' ways, `ways` of them together are one more charge
/// that moves and is settled like the hop charge. The two charges together are `charge` at most.
double settle_ring_purse(EdgeFigures edge, std::span<SlotPrice* const> prices, double length, double ways,
                         PassCharges& charges);

}  // namespace spadework::graph::chains
