#pragma once

// First prices on sites: demands take turns paying for what keeps them from a site.

#include "graph/two_level_prices.hpp"

namespace spadework::graph::two_level {

/// Writes each demand's site prices into the table. As if trenches were free, every demand raises what it would pay in
/// all to the next dearer site, paying each nearer site the difference, until some site it pays is paid off.
/// Erlenkotter, "A dual-based procedure for uncapacitated facility location", Operations Research 26 (1978). `toll` is
/// paid on top of every site's opening.
void set_site_prices(const SearchField& field, const pair_routes::Network& network, double toll, PriceTable& prices);

}  // namespace spadework::graph::two_level
