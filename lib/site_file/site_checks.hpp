#pragma once

#include "site_file/draft.hpp"
#include "site_file/fields.hpp"

namespace spadework::site_file {

/// Gives every place its final kind (hub and buildings stand where the sections say) and decides where enclosures may
/// stand. Reports buildings on the hub's place, two buildings on one place, and places that claim to be the hub.
void settle_places(Reading& reading, Draft& draft);

/// Where the inside of an existing duct is known, its room becomes what the fill rules leave for the thickest cable of
/// the catalogue, or what is said of its room where that is less. Warns where the rules leave less than was said.
/// Segments must still be in the order of the file; everything must have been read without errors.
void settle_duct_room(Reading& reading, Draft& draft);

/// Reports buildings that no usable segment joins to the hub: on the map as read, or with its areas worked in. The map
/// must have been read without errors.
void check_connections(const Scenario& scenario, Reading& reading, const Draft& draft);

/// Works the areas into the map (see open_ground::opened), and reports what shows only then: a lattice out of hand,
/// segments that obstacles bar, buildings cut off, sums of money that could grow too large to count.
void work_in_areas(Reading& reading, Draft& draft);

/// Reports what the catalogue lacks for the rules, prices that the map needs and nobody gave, and sums of money that
/// could grow too large to count.
void check_prices(const Fields& site, Reading& reading, const Draft& draft);

}  // namespace spadework::site_file
