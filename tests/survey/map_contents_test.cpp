#include "survey/map_contents.hpp"

#include <doctest/doctest.h>

#include "support/drawn_things.hpp"

using namespace spadework;
using namespace spadework::survey;

TEST_CASE("a building is called by its name, else its address, else what the file calls it") {
    auto named = house("way/1", 0, 0);
    named.name = "Town hall";
    auto addressed = house("way/2", 50, 0);
    addressed.tags.push_back({"addr:street", "Hill Street"});
    addressed.tags.push_back({"addr:housenumber", "12"});
    const MapContents contents = contents_of_lines({named, addressed, house("way/3", 100, 0), house("", 150, 0)});
    std::vector<std::string> ids;
    for (const DrawnBuilding& building : contents.buildings)
        ids.push_back(building.id);
    CHECK(ids == std::vector<std::string>{"Hill Street 12", "Town hall", "building", "way/3"});
}

TEST_CASE("buildings of one name are told apart by numbers, and one drawn twice is taken once") {
    auto a = house("way/1", 0, 0);
    auto b = house("way/2", 50, 0);
    a.name = b.name = "Garage";
    const MapContents contents = contents_of_lines({a, b, a});
    REQUIRE(contents.buildings.size() == 2);
    CHECK(contents.buildings[0].id == "Garage");
    CHECK(contents.buildings[1].id == "Garage (2)");
    CHECK(contents.repeated_features == 1);
}

TEST_CASE("a point inside the outline of a building is that building and gives it its name") {
    auto inside = point("", 1, 1, {{"building", "yes"}});
    inside.name = "Library";
    auto outside = point("", 30, 1, {{"building", "yes"}});
    outside.name = "Kiosk";
    const MapContents contents = contents_of_lines({house("way/1", 0, 0), inside, outside});
    REQUIRE(contents.buildings.size() == 2);
    CHECK(contents.points_in_buildings == 1);
    CHECK(contents.buildings[0].id == "Kiosk");
    CHECK(contents.buildings[1].id == "Library");
    CHECK_FALSE(contents.buildings[1].from_point);
    CHECK(contents.buildings[1].file_id == "way/1");
}

TEST_CASE("what is left out is counted by shape") {
    const MapContents contents = contents_of_lines({line("a", {{0, 0}, {10, 0}}, {{"barrier", "fence"}}),
                                                    point("b", 0, 0, {{"amenity", "bench"}}),
                                                    area("c", {{0, 0}, {10, 0}, {0, 10}}, {{"landuse", "residential"}}),
                                                    area("d", {{0, 0}, {10, 0}, {0, 10}}, {{"landuse", "grass"}})});
    CHECK(contents.lines_left_out == 1);
    CHECK(contents.points_left_out == 1);
    CHECK(contents.areas_left_out == 1);
    REQUIRE(contents.areas.size() == 1);
    CHECK(contents.areas[0].ground == "grass");
}
