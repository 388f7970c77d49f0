#include "layout/trunk_problem.hpp"

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

/// hub - near - unit - far, the places 10 m apart; enclosures may stand anywhere.
Scenario site_in_a_row() {
    Scenario site = drawing::bare_site();
    for (int place = 0; place < 3; ++place)
        drawing::add_place(site);
    for (PlaceIndex from = 0; from < 3; ++from)
        drawing::add_segment(site, from, from + 1, 10.0);
    for (Place& place : site.places)
        place.enclosure_allowed = true;
    drawing::add_building(site, 2);
    return site;
}

}  // namespace

TEST_CASE("by shortest ways, enclosures that no building hangs from are left out and the others numbered anew") {
    const Scenario site = site_in_a_row();
    const RoutedLayout routed = trunk_by_shortest_ways(site, trunk_problem(site), LayoutKind::trunk, {3, 1});
    REQUIRE(routed.enclosures.size() == 1);
    CHECK(routed.enclosures.front().place == 1);
    REQUIRE(routed.buildings.size() == 1);
    CHECK(routed.buildings.front().served_by == 0);
    CHECK(routed.buildings.front().route.from == 1);
}

}  // namespace spadework
