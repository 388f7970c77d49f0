#include "units/work_time.hpp"

#include <doctest/doctest.h>

using spadework::Length;
using spadework::WorkTime;

TEST_CASE("hours and minutes are kept to the nearest second") {
    CHECK(WorkTime::from_hours(0.25).seconds() == 900);
    CHECK(WorkTime::from_minutes(5).seconds() == 300);
    CHECK(WorkTime::from_minutes(0.0083).seconds() == 0);
    CHECK(WorkTime::from_minutes(5) * 12 == WorkTime::from_hours(1));
}

TEST_CASE("work along a stretch takes its length times the hours a metre") {
    CHECK(WorkTime::along(Length::from_metres(100), 0.2) == WorkTime::from_hours(20));
    CHECK(WorkTime::along(Length(), 0.2) == WorkTime());
}
