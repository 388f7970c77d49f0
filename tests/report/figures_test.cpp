#include "report/figures.hpp"

#include <limits>

#include <doctest/doctest.h>

namespace spadework::report {

TEST_CASE("figures for people have a comma between thousands") {
    CHECK(figure(std::int64_t{0}) == "0");
    CHECK(figure(std::int64_t{999}) == "999");
    CHECK(figure(std::int64_t{1000}) == "1,000");
    CHECK(figure(std::int64_t{-1234567}) == "-1,234,567");
    CHECK(figure(1234567.891, 2) == "1,234,567.89");
    CHECK(figure(-0.001, 2) == "0.00");
    CHECK(figure(std::numeric_limits<double>::quiet_NaN(), 2) == "-");
    CHECK(figure(Money::from_minor(123456789), {"EUR", 2}) == "1,234,567.89");
    CHECK(figure(Money::from_minor(-5), {"EUR", 2}) == "-0.05");
    CHECK(figure(Money::from_minor(123456), {"JPY", 0}) == "123,456");
    CHECK(figure(Money::from_minor(1234567), {"KWD", 3}) == "1,234.567");
}

TEST_CASE("a unit price shows the currency's digits, and more only where they are not 0") {
    CHECK(figure(UnitPrice::from_thousandths(130000), {"EUR", 2}) == "1.30");
    CHECK(figure(UnitPrice::from_thousandths(130500), {"EUR", 2}) == "1.305");
    CHECK(figure(UnitPrice::from_thousandths(130501), {"EUR", 2}) == "1.30501");
    CHECK(plain(UnitPrice::from_thousandths(1000), {"JPY", 0}) == "1");
}

TEST_CASE("lengths follow the site's unit in reports and stay metres where metres are asked for") {
    Scenario scenario;
    CHECK(figure(Length::from_metres(1234.56), scenario) == "1,234.6");
    CHECK(plain(Length::from_millimetres(1234567), scenario) == "1234.567");
    scenario.feet = true;
    CHECK(std::string(length_unit(scenario)) == "ft");
    CHECK(figure(Length::from_feet(1500), scenario) == "1,500.0");
    CHECK(plain(Length::from_feet(12.5), scenario) == "12.5");
    CHECK(plain_metres(Length::from_millimetres(60000)) == "60");
    CHECK(plain_metres(Length::from_millimetres(1)) == "0.001");
}

TEST_CASE("a price a metre becomes one a foot of 0.3048 m") {
    Scenario scenario;
    const UnitPrice ten = UnitPrice::from_thousandths(1000000);
    CHECK(price_a_length_unit(ten, scenario) == ten);
    scenario.feet = true;
    CHECK(price_a_length_unit(ten, scenario) == UnitPrice::from_thousandths(304800));
}

TEST_CASE("plain numbers drop zeros and never print minus nought") {
    CHECK(plain(12.5000, 4) == "12.5");
    CHECK(plain(100.0, 4) == "100");
    CHECK(plain(-0.00001, 3) == "0");
    CHECK(plain(std::numeric_limits<double>::infinity(), 3).empty());
}

TEST_CASE("exact numbers read back as they were, without an exponent") {
    for (const double value : {0.1, 1.0 / 3.0, -122.08123456789012, 1e-7, -4.9e-12, 123456789.125, 3e20, 0.0, 5.0}) {
        const std::string text = plain_exact(value);
        CHECK_MESSAGE(std::stod(text) == value, text);
        CHECK_MESSAGE(text.find('e') == std::string::npos, text);
    }
    CHECK(plain_exact(5.0) == "5");
    CHECK(plain_exact(-0.0) == "0");
    CHECK(plain_exact(std::numeric_limits<double>::infinity()).empty());
}

}  // namespace spadework::report
