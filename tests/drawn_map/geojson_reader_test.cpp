#include <doctest/doctest.h>

#include "drawn_map/reading.hpp"

using namespace spadework;
using namespace spadework::drawn_map;

TEST_CASE("a feature is read with its tags and place in the file") {
    Diagnostics diagnostics;
    const auto map =
        read_drawn_map("park.geojson",
                       "{\"type\": \"FeatureCollection\", \"features\": [\n"
                       " {\"type\": \"Feature\", \"id\": 7, \"properties\": {\"name\": \"Elm walk\", \"lit\": true},\n"
                       "  \"geometry\": {\"type\": \"LineString\", \"coordinates\": [[1, 2], [1, 3, 50]]}}]}",
                       {}, diagnostics);
    REQUIRE(map);
    CHECK(diagnostics.empty());
    REQUIRE(map->features.size() == 1);
    const Feature& walk = map->features[0];
    CHECK(walk.id == "7");
    CHECK(walk.name == "Elm walk");
    CHECK(walk.tags == std::vector<Tag>{{"name", "Elm walk"}, {"lit", "true"}});
    CHECK(walk.parts == std::vector<std::vector<Position>>{{{1, 2}, {1, 3}}});
    CHECK(walk.where.line == 2);
    CHECK(walk.where.column == 2);
    CHECK(map->left_out == std::map<std::string, int>{{"altitudes", 1}});
}
