#pragma once

#include "site_file/draft.hpp"
#include "site_file/fields.hpp"

namespace spadework::site_file {

/// Gives every place its final kind (hub and buildings stand where the sections say) and decides where enclosures may
/// stand. Reports buildings on the hub's place, two buildings on one place, and places that claim to be the hub.
void settle_places(Reading& reading, Draft& draft);

/// Reports buildings that no usable segment joins to the hub. The map must have been read without errors.
void check_connections(Reading& reading, const Draft& draft);

/// Reports what the catalogue lacks for the rules, prices that the map needs and nobody gave, and sums of money that
/// could grow too large to count.
void check_prices(const Fields& site, Reading& reading, const Draft& draft);

}  // namespace spadework::site_file
