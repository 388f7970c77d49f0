#include "layout/enclosure_places.hpp"

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {

TEST_CASE("an enclosure may stand at every place that is allowed and that the hub reaches") {
    Scenario site = drawing::row_site(3, 10);
    drawing::add_place(site);  // Nothing leads there.
    site.places[1].enclosure_allowed = false;
    const ShortestWays from_hub = shortest_ways(network_of(site), site.hub.place);
    CHECK(enclosure_places(site, from_hub) == std::vector<PlaceIndex>{0, 2, 3});
    site.segments[2].ban = "private";
    CHECK(enclosure_places(site, shortest_ways(network_of(site), 0)) == std::vector<PlaceIndex>{0, 2});
}

}  // namespace spadework
