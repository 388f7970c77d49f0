#pragma once

// The two-level bound proved from prices, in integers.
//
// Given any plan, let T be the spanning tree of its open edges that takes the edges of smaller (opening, id) first,
// seen as running away from the source, and call the open edges left out chords. A chord is never an edge of the
// spanning tree of the whole network that takes edges in the same order.
//
// Let demand d pay price p[d][a] for every arc a of T on the way from the source to it, where no arc's prices sum to
// more than its edge's opening cost, and s[d][i] for the site i that serves it, where no site's prices sum to more than
// what the site costs at least (plus a toll, which times the most sites allowed is taken off again).
//
// If d's cable runs in T, it runs from its site i up to a fork and down to d, so d is charged at least the least sum of
//   prices from the source to a fork; prices and service charges from the fork outwards to a site; s and the units'
//   share of the feeder there; prices and service charges from the fork outwards to d.
// Otherwise its cable leaves T; let c be the last chord on it. Behind c it runs in T, up to a fork and down to d. So d
// is charged at least the least sum of
//   prices from the source to a fork; service charges along any way from any site through c to the fork, with s and the
//   units' share; prices and service charges from the fork outwards to d; and what d pays for c, where no chord's
//   payments sum to more than its opening cost.
// A demand served by the source is charged alike with its direct charges. What the demands are charged, all of it is
// part of the plan's cost, once. The order is chosen so that edges come early for which much would have to be paid in
// comparison with their opening cost. Payments for chords are made as large as it takes to keep the first sum the
// smaller one; where the chords' opening costs do not allow that, the demands' first sums are lowered.

#include "graph/two_level_prices.hpp"
#include "graph/two_level_relaxation.hpp"

namespace spadework::graph::two_level {

// Where the relaxation says that demands are served in a tree, only the first sum counts.

/// No plan costs less than this many whole cost units. `toll` is in parts. Prices that pass a purse are cut down.
Cost bound_from_prices(const Relaxation& relaxation, const pair_routes::Network& network, const PriceTable& prices,
                       Cost toll, WorkerTeam& team);

}  // namespace spadework::graph::two_level
