#include "acceptance/tested_strands.hpp"

#include <doctest/doctest.h>

#include "acceptance/support/lakeside_plan.hpp"

namespace spadework::acceptance {
namespace {

/// Swaps among the strands of the lakeside plan with these lengths, in metres, one a strand.
std::vector<Swap> swaps_of(const std::vector<double>& lengths) {
    plan_file::PlanFile plan = testing::lakeside();
    for (std::size_t t = 0; t < plan.tests.size(); ++t)
        plan.tests[t].glass = Length::from_metres(100.0 * static_cast<double>(t + 1));
    std::vector<Reading> readings = testing::good_readings(plan);
    for (std::size_t r = 0; r < readings.size(); ++r)
        readings[r].length = Length::from_metres(lengths[r / 2]);
    const Acceptance acceptance = judge(plan, readings, {});
    return swaps_among(tested_strands(plan, acceptance.readings), acceptance.readings, {});
}

}  // namespace

TEST_CASE("strands are in one swap at most, and the pair that fits best is taken") {
    CHECK(swaps_of({100, 200, 300, 400, 500, 600, 700, 800}).empty());
    const auto pair = swaps_of({100, 300, 200, 400, 500, 600, 700, 800});
    REQUIRE(pair.size() == 1);
    CHECK(pair[0].a == 1);
    CHECK(pair[0].b == 2);
    CHECK(pair[0].by_length);
    CHECK(swaps_of({200, 100, 400, 300, 600, 500, 800, 700}).size() == 4);
}

TEST_CASE("three strands in a round are no swap of two") {
    CHECK(swaps_of({200, 300, 100, 400, 500, 600, 700, 800}).empty());
}

TEST_CASE("a strand's length is the mean of its readings") {
    plan_file::PlanFile plan = testing::lakeside();
    std::vector<Reading> readings = testing::good_readings(plan);
    readings[0].length = Length::from_metres(10);
    readings[1].length = Length::from_metres(13);
    const auto strands = tested_strands(plan, judge(plan, readings, {}).readings);
    CHECK(*strands[0].length == Length::from_millimetres(11500));
    CHECK(strands.size() == plan.tests.size());
}

}  // namespace spadework::acceptance
