#include "drawn_map/osm_area_rule.hpp"

#include <doctest/doctest.h>

using namespace spadework::drawn_map;

TEST_CASE("a closed way is an area by what it is, and a word on it decides") {
    CHECK(closed_way_is_area({{"building", "yes"}}));
    CHECK(closed_way_is_area({{"landuse", "grass"}}));
    CHECK(closed_way_is_area({{"amenity", "parking"}, {"surface", "asphalt"}}));
    CHECK(closed_way_is_area({{"natural", "water"}}));
    CHECK(closed_way_is_area({{"highway", "footway"}, {"area", "yes"}}));
    CHECK(closed_way_is_area({{"highway", "platform"}}));
    CHECK_FALSE(closed_way_is_area({{"highway", "footway"}}));
    CHECK_FALSE(closed_way_is_area({{"highway", "footway"}, {"leisure", "park"}}));
    CHECK_FALSE(closed_way_is_area({{"barrier", "fence"}, {"landuse", "grass"}}));
    CHECK_FALSE(closed_way_is_area({{"natural", "cliff"}}));
    CHECK_FALSE(closed_way_is_area({{"leisure", "track"}}));
    CHECK_FALSE(closed_way_is_area({{"building", "yes"}, {"area", "no"}}));
    CHECK_FALSE(closed_way_is_area({{"building", "no"}}));
    CHECK_FALSE(closed_way_is_area({}));
}
