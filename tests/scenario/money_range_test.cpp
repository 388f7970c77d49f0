#include "scenario/money_range.hpp"

#include <doctest/doctest.h>

#include "scenario/small_scenario.hpp"

using namespace spadework;
using namespace spadework::testing;

TEST_CASE("sums of a common site can be counted, sums beyond 10^17 minor units cannot") {
    Scenario scenario = places_in_a_row(2);
    join(scenario, 0, 1);
    add_building(scenario, 1);
    scenario.grounds[0].methods[0].plant_per_metre = UnitPrice::from_minor(5000);
    CHECK(totals_can_be_counted(scenario));
    // 10 m at 9 * 10^15 minor units a metre.
    scenario.grounds[0].methods[0].plant_per_metre = UnitPrice::from_thousandths(9'000'000'000'000'000'000);
    CHECK(totals_can_be_counted(scenario));
    scenario.segments[0].length = Length::from_metres(12);
    CHECK_FALSE(totals_can_be_counted(scenario));
}

TEST_CASE("tax and contingency count too") {
    Scenario scenario = places_in_a_row(2);
    join(scenario, 0, 1);
    add_building(scenario, 1);
    scenario.segments[0].charges = {{"bridge", ChargeCategory::crossing, Money::from_minor(60'000'000'000'000'000)}};
    CHECK(totals_can_be_counted(scenario));
    scenario.rules.tax = Percent::from_percent(100);
    CHECK_FALSE(totals_can_be_counted(scenario));
}
