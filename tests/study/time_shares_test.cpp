#include "study/time_shares.hpp"

#include <doctest/doctest.h>

using spadework::TimeShares;

// Limits are days long so that the time these lines take does not matter.
constexpr double days = 86400;

TEST_CASE("one job gets all the time, however many workers there are") {
    for (const int workers : {1, 4}) {
        CHECK(TimeShares(days, 1, workers).begin_job() == doctest::Approx(days).epsilon(0.01));
    }
}

TEST_CASE("jobs one after the other get equal shares of what is left") {
    TimeShares shares(days, 4, 1);
    CHECK(shares.begin_job() == doctest::Approx(days / 4).epsilon(0.01));
    // The first job took no time: its share goes to the three that are left.
    CHECK(shares.begin_job() == doctest::Approx(days / 3).epsilon(0.01));
    CHECK(shares.begin_job() == doctest::Approx(days / 2).epsilon(0.01));
    CHECK(shares.begin_job() == doctest::Approx(days).epsilon(0.01));
}

TEST_CASE("jobs side by side get as many shares as there are workers") {
    TimeShares shares(days, 4, 2);
    CHECK(shares.begin_job() == doctest::Approx(days / 2).epsilon(0.01));
    CHECK(shares.begin_job() == doctest::Approx(days * 2 / 3).epsilon(0.01));
}

TEST_CASE("when no time is left a share is zero, never negative") {
    CHECK(TimeShares(0, 3, 2).begin_job() == 0);
    CHECK(TimeShares(-5, 3, 2).begin_job() == 0);
}

TEST_CASE("more jobs than announced get the whole of what is left") {
    TimeShares shares(days, 1, 1);
    shares.begin_job();
    CHECK(shares.begin_job() == doctest::Approx(days).epsilon(0.01));
}
