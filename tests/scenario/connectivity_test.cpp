#include "scenario/connectivity.hpp"

#include <cmath>
#include <limits>
#include <random>

#include <doctest/doctest.h>

#include "scenario/small_scenario.hpp"

using namespace spadework;
using namespace spadework::testing;

TEST_CASE("segments hold the map together, banned ones do not") {
    Scenario scenario = places_in_a_row(4);
    join(scenario, 0, 1);
    join(scenario, 1, 2, "private");
    join(scenario, 2, 3);
    const MapParts parts = map_parts(scenario);
    CHECK(parts.count == 2);
    CHECK(parts.part_of_place == std::vector<int>{0, 0, 1, 1});
}

TEST_CASE("a building cut off is told with its part, the distance to the rest and the banned segment between") {
    Scenario scenario = places_in_a_row(5);
    join(scenario, 0, 1);
    join(scenario, 2, 3);
    join(scenario, 1, 2, "private");
    add_building(scenario, 1);
    add_building(scenario, 3);
    add_building(scenario, 4);
    const auto cut_off = cut_off_buildings(scenario);
    REQUIRE(cut_off.size() == 2);
    CHECK(cut_off[0].building == 1);
    CHECK(cut_off[0].places_in_part == 2);
    CHECK(cut_off[0].metres_from_rest == 10);
    CHECK(cut_off[0].near_end == 2);
    CHECK(cut_off[0].far_end == 1);
    CHECK(cut_off[0].banned_between == SegmentIndex{2});
    CHECK(cut_off[1].building == 2);
    CHECK(cut_off[1].places_in_part == 1);
    CHECK(cut_off[1].metres_from_rest == 30);
    CHECK_FALSE(cut_off[1].banned_between.has_value());
}

TEST_CASE("nothing is cut off where everything hangs together") {
    Scenario scenario = places_in_a_row(3);
    join(scenario, 0, 1);
    join(scenario, 1, 2);
    add_building(scenario, 2);
    CHECK(cut_off_buildings(scenario).empty());
}

TEST_CASE("the distance to the rest is that of trying every pair") {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> metres(0, 100);
    for (int round = 0; round < 50; ++round) {
        Scenario scenario;
        for (int i = 0; i < 30; ++i) {
            Place place;
            place.id = std::to_string(100 + i);
            place.at = {metres(random), metres(random)};
            scenario.places.push_back(place);
        }
        for (int i = 1; i < 15; ++i)
            join(scenario, i - 1, i);
        for (int i = 16; i < 30; ++i)
            join(scenario, i - 1, i);
        add_building(scenario, 20);
        double least = std::numeric_limits<double>::infinity();
        for (std::size_t a = 0; a < 15; ++a) {
            for (std::size_t b = 15; b < 30; ++b) {
                least = std::min(least, std::hypot(scenario.places[a].at.x - scenario.places[b].at.x,
                                                   scenario.places[a].at.y - scenario.places[b].at.y));
            }
        }
        const auto cut_off = cut_off_buildings(scenario);
        REQUIRE(cut_off.size() == 1);
        CHECK(cut_off[0].metres_from_rest == doctest::Approx(least));
    }
}
