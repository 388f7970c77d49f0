#include "rates/opening_rates.hpp"

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {

TEST_CASE("a metre of groundworks is crew time, plant, material and reinstatement") {
    const Scenario site = small_site::site();
    CHECK(groundworks_per_metre(site.grounds[0].methods[0], site.labour).thousandths() == 2000 * 1000);
}

TEST_CASE("a metre of cable passing pays its duct and its pulling") {
    const Scenario site = small_site::site();
    CHECK(passage_per_metre(site.grounds[0].methods[0], site.labour).thousandths() == (150 + 36) * 1000);
}

TEST_CASE("a segment offers its ground's methods, then its duct, then its poles, each with the segment's charges") {
    Scenario site = small_site::site();
    site.segments[small_site::drive].duct_room = 4;
    site.segments[small_site::drive].pole_line = true;
    site.pole_line.plant_per_metre = small_site::cents(100);
    const auto ways = ways_of(site, small_site::drive);
    REQUIRE(ways.size() == 3);
    CHECK(ways[0].ground == "grass");
    CHECK(ways[0].room == -1);
    CHECK(ways[0].opening.minor() == 100 * 2000 + 5000 + 53000);
    CHECK(ways[1].ground == "existing duct");
    CHECK(ways[1].room == 4);
    CHECK(ways[1].opening.minor() == 53000);
    CHECK(ways[2].ground == "pole line");
    CHECK(ways[2].opening.minor() == 10000 + 53000);
}

TEST_CASE("a full duct is no way, and a banned segment has none at all") {
    Scenario site = small_site::site();
    site.segments[small_site::lane].duct_room = 0;
    CHECK(ways_of(site, small_site::lane).size() == 1);
    site.segments[small_site::lane].ban = "owner refuses";
    CHECK(ways_of(site, small_site::lane).empty());
}

}  // namespace spadework
