#pragma once

// How long the hops of daisy chains and rings may be, so that routes are found whose links can be lit.

#include <optional>
#include <vector>

#include "graph/shared_cost_problem.hpp"
#include "routing/network.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// The longest route of a hop, coils in the handholes it passes counted in, up to which optics of the catalogue light
/// all its links as plans light them: through the cheapest cable of the length with its joints, within every limit of
/// an optic, attenuators allowed. Routes too short for any optic are left aside, and so are optics that only take up
/// again beyond a stretch that none carries: the first length that cannot be lit, of 200 as far apart as the longest
/// reach and the whole map allow, ends the search, and the limit before it is found to the millimetre. Nothing where no
/// hop on the map can be too long, or all are too short.
std::optional<Length> longest_hop(const Scenario& scenario);

/// By edge of the network what it adds to a hop: its segment's length and half of the coil of each handhole it ends at,
/// in millimetres. A hop that begins or ends in a handhole counts up to a coil too much, none too little.
std::vector<graph::Length> hop_spans(const Scenario& scenario, const Network& network);

}  // namespace spadework
