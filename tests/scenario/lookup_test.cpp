#include "scenario/lookup.hpp"

#include <doctest/doctest.h>

#include "scenario/small_scenario.hpp"

using namespace spadework;
using namespace spadework::testing;

TEST_CASE("things are found by id, and only by an id that is there") {
    Scenario scenario = places_in_a_row(5);
    join(scenario, 0, 1);
    add_building(scenario, 1);
    CHECK(find_place(scenario, "a") == 0);
    CHECK(find_place(scenario, "e") == 4);
    CHECK_FALSE(find_place(scenario, "").has_value());
    CHECK_FALSE(find_place(scenario, "aa").has_value());
    CHECK_FALSE(find_place(scenario, "z").has_value());
    CHECK(find_segment(scenario, "s0") == 0);
    CHECK(find_building(scenario, "building 0") == 0);
    CHECK(find_ground(scenario, "grass") == 0);
    CHECK_FALSE(find_ground(scenario, "gravel").has_value());
}
