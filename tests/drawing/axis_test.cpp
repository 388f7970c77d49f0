#include "drawing/axis.hpp"

#include <cmath>

#include <doctest/doctest.h>

using namespace spadework;
using namespace spadework::drawing;

TEST_CASE("ticks are round, start at 0 and reach what the axis has to hold") {
    for (const double most : {0.03, 0.7, 1.0, 9.99, 10.0, 12.0, 137.0, 5000.0, 226'119.88, 1.1e18}) {
        for (const int wanted : {1, 4, 8}) {
            const RoundTicks ticks = round_ticks(most, wanted);
            CAPTURE(most);
            CAPTURE(wanted);
            CHECK(ticks.at.front() == 0);
            CHECK(ticks.last() >= most * (1 - 1e-9));
            CHECK(ticks.last() - ticks.step < most);
            CHECK(ticks.at.size() <= static_cast<std::size_t>(wanted) + 1);
            const double lead = ticks.step / std::pow(10.0, std::floor(std::log10(ticks.step) + 1e-9));
            CHECK((std::abs(lead - 1) < 1e-6 || std::abs(lead - 2) < 1e-6 || std::abs(lead - 5) < 1e-6));
        }
    }
}

TEST_CASE("an axis for nothing still has a length") {
    CHECK(round_ticks(0, 4).last() > 0);
    CHECK(round_ticks(std::nan(""), 4).last() > 0);
    CHECK(round_ticks(INFINITY, 4).last() > 0);
}

TEST_CASE("ticks show as many digits as their step needs") {
    CHECK(tick_text(2500, 500) == "2,500");
    CHECK(tick_text(0.5, 0.5) == "0.5");
    CHECK(tick_text(0.75, 0.25) == "0.8");
    CHECK(tick_text(0.02, 0.01) == "0.02");
    CHECK(money_tick_text(250'000, 50'000, {"EUR", 2}) == "2,500");
    CHECK(money_tick_text(50, 50, {"EUR", 2}) == "0.5");
    CHECK(money_tick_text(2500, 500, {"JPY", 0}) == "2,500");
}

TEST_CASE("the round value below a value is at most it") {
    CHECK(round_below(1) == doctest::Approx(1));
    CHECK(round_below(4.9) == doctest::Approx(2));
    CHECK(round_below(5) == doctest::Approx(5));
    CHECK(round_below(999) == doctest::Approx(500));
    CHECK(round_below(0.03) == doctest::Approx(0.02));
}
