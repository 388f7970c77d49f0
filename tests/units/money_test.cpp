#include "units/money.hpp"

#include <random>

#include <doctest/doctest.h>

using namespace spadework;

TEST_CASE("an amount is the exact product, rounded half up to a whole minor unit") {
    const auto price = UnitPrice::from_minor(95.5);  // 0.955 a metre
    CHECK(amount(price, Length::from_metres(1)) == Money::from_minor(96));
    CHECK(amount(price, Length::from_metres(10)) == Money::from_minor(955));
    CHECK(amount(UnitPrice::from_thousandths(499), std::int64_t{1}) == Money::from_minor(0));
    CHECK(amount(UnitPrice::from_thousandths(500), std::int64_t{1}) == Money::from_minor(1));
    CHECK(amount(UnitPrice::from_thousandths(-500), std::int64_t{1}) == Money::from_minor(0));
    CHECK(amount(UnitPrice::from_thousandths(-501), std::int64_t{1}) == Money::from_minor(-1));
    CHECK(amount(UnitPrice::from_minor(6200), WorkTime::from_minutes(30)) == Money::from_minor(3100));
}

TEST_CASE("large amounts do not overflow on the way") {
    // 10^9 major units a metre over 1000 km: 10^17 minor units.
    CHECK(amount(UnitPrice::from_minor(1e11), Length::from_metres(1e6)) == Money::from_minor(100'000'000'000'000'000));
    CHECK(share_of(Money::from_minor(100'000'000'000'000'000), Percent::from_percent(20)) ==
          Money::from_minor(20'000'000'000'000'000));
}

TEST_CASE("a share is rounded half up and never falls when the amount grows") {
    CHECK(share_of(Money::from_minor(1000), Percent::from_percent(8.875)) == Money::from_minor(89));
    CHECK(share_of(Money::from_minor(50), Percent::from_percent(1)) == Money::from_minor(1));
    CHECK(share_of(Money::from_minor(49), Percent::from_percent(1)) == Money::from_minor(0));
    std::mt19937 random(11);
    std::uniform_int_distribution<std::int64_t> minor(-100'000, 100'000);
    for (int i = 0; i < 2000; ++i) {
        const std::int64_t a = minor(random);
        const auto percent = Percent::from_thousandths(minor(random) + 100'000);
        CHECK(share_of(Money::from_minor(a), percent) <= share_of(Money::from_minor(a + 1), percent));
    }
}

TEST_CASE("amounts of a length never fall when the length grows") {
    std::mt19937 random(12);
    std::uniform_int_distribution<std::int64_t> value(0, 5'000'000);
    for (int i = 0; i < 2000; ++i) {
        const auto price = UnitPrice::from_thousandths(value(random));
        const std::int64_t millimetres = value(random);
        CHECK(amount(price, Length::from_millimetres(millimetres)) <=
              amount(price, Length::from_millimetres(millimetres + 1)));
    }
}

TEST_CASE("money is written with as many digits behind the point as the currency has") {
    CHECK(decimal_text(Money::from_minor(123450), {"EUR", 2}) == "1234.50");
    CHECK(decimal_text(Money::from_minor(5), {"EUR", 2}) == "0.05");
    CHECK(decimal_text(Money::from_minor(-5), {"EUR", 2}) == "-0.05");
    CHECK(decimal_text(Money::from_minor(1234), {"JPY", 0}) == "1234");
    CHECK(decimal_text(Money::from_minor(1234), {"KWD", 3}) == "1.234");
    CHECK(decimal_text(Money::from_minor(INT64_MIN), {"EUR", 2}) == "-92233720368547758.08");
}
