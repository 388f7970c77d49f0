#include "doubt/quantile.hpp"

#include <cmath>

#include <doctest/doctest.h>

using namespace spadework;

namespace {

/// Mean over the middle of many equal parts of all cases.
double mean_of_range(const Range& range) {
    constexpr int parts = 20'000;
    double sum = 0;
    for (int i = 0; i < parts; ++i)
        sum += quantile(range, (i + 0.5) / parts);
    return sum / parts;
}

UncertainValue value(const std::string& key, const std::string& group, const Range& range) {
    return {key, "EUR", group, range};
}

}  // namespace

TEST_CASE("quantiles are those of a general statistics package") {
    // By tests/doubt/figures_of_statistics.py.
    const Range triangle = *triangular_range(40, 50, 70, 0);
    CHECK(quantile(triangle, 0.05) == doctest::Approx(43.87298334620742).epsilon(1e-13));
    CHECK(quantile(triangle, 0.5) == doctest::Approx(52.67949192431122).epsilon(1e-13));
    CHECK(quantile(triangle, 0.93) == doctest::Approx(63.51925930159214).epsilon(1e-13));
    const Range pert = pert_range(40, 50, 70);
    CHECK(quantile(pert, 0.05) == doctest::Approx(43.28497175994983).epsilon(1e-10));
    CHECK(quantile(pert, 0.5) == doctest::Approx(51.27437521012363).epsilon(1e-10));
    CHECK(quantile(pert, 0.93) == doctest::Approx(60.46168703735427).epsilon(1e-10));
    CHECK(quantile(uniform_range(40, 70, 0), 0.25) == 47.5);
}

TEST_CASE("the mean of a three-point range is that of its formula") {
    CHECK(mean_of_range(pert_range(40, 50, 70)) == doctest::Approx((40 + 4 * 50 + 70) / 6.0).epsilon(1e-6));
    CHECK(mean_of_range(*triangular_range(40, 50, 70, 0)) == doctest::Approx((40 + 50 + 70) / 3.0).epsilon(1e-6));
}

TEST_CASE("a range with tails has that share of all cases beyond each figure") {
    for (const double tails : {0.05, 0.1, 0.25, 0.4}) {
        CAPTURE(tails);
        const Range range = *triangular_range(40, 50, 70, tails);
        CHECK(quantile(range, tails) == doctest::Approx(40).epsilon(1e-9));
        CHECK(quantile(range, 1 - tails) == doctest::Approx(70).epsilon(1e-9));
        CHECK(range.low < 40);
        CHECK(range.high > 70);
        const Range flat = uniform_range(40, 70, tails);
        CHECK(quantile(flat, tails) == doctest::Approx(40).epsilon(1e-12));
        CHECK(quantile(flat, 1 - tails) == doctest::Approx(70).epsilon(1e-12));
    }
    CHECK_FALSE(triangular_range(40, 40, 70, 0.1));
    CHECK(triangular_range(40, 40, 70, 0));
}

TEST_CASE("a value with two cases has each as often as its chance says, the higher one at high quantiles") {
    const Range rock = two_point_range(30, 90, 0.2);
    CHECK(quantile(rock, 0.79) == 30);
    CHECK(quantile(rock, 0.81) == 90);
    CHECK(rock.likely == 30);
    const Range rebate = two_point_range(30, 10, 0.2);
    CHECK(quantile(rebate, 0.19) == 10);
    CHECK(quantile(rebate, 0.21) == 30);
    CHECK(rebate.likely == 30);
    CHECK(two_point_range(30, 90, 0.5).likely == 30);
    CHECK(two_point_range(30, 90, 0.6).likely == 90);
    CHECK(quantile(two_point_range(30, 90, 0), 0.999) == 30);
    CHECK(quantile(two_point_range(30, 90, 1), 0.001) == 90);
}

TEST_CASE("quantiles never fall and never leave the range") {
    const Range ranges[] = {*triangular_range(1, 1, 5, 0), *triangular_range(1, 5, 5, 0), pert_range(1, 1, 5),
                            pert_range(0, 4, 5),           uniform_range(2, 2, 0),        two_point_range(1, 5, 0.3)};
    for (const Range& range : ranges) {
        double before = range.low;
        for (const double u : {1e-16, 0.001, 0.3, 0.5, 0.7, 0.999, 1 - 1e-16}) {
            const double at = quantile(range, u);
            CHECK(at >= before);
            CHECK(at <= range.high);
            before = at;
        }
    }
}

TEST_CASE("values of one group are one driver, the others each their own") {
    const Range flat = uniform_range(0, 10, 0);
    const std::vector<UncertainValue> values = {value("a", "", flat), value("b", "g", flat), value("c", "", flat),
                                                value("d", "g", uniform_range(100, 200, 0))};
    const std::vector<Driver> drivers = drivers_of(values);
    REQUIRE(drivers.size() == 3);
    CHECK(drivers[1] == Driver{"g", true, {1, 3}});
    const double at[] = {0.5, 0.25, 0.75};
    CHECK(numbers_at(values, drivers, at) == std::vector<double>{5, 2.5, 7.5, 125});
}

TEST_CASE("a value that is called like a group does not belong to it") {
    const Range flat = uniform_range(0, 10, 0);
    CHECK(drivers_of({value("rock", "", flat), value("b", "rock", flat)}).size() == 2);
}
