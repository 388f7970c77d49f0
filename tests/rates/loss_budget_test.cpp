// Published worked examples, digit for digit. Where a source gives the inputs and its formula but no printed output,
// the row is said to be computed.

#include "rates/loss_budget.hpp"

#include <cmath>
#include <limits>

#include <doctest/doctest.h>

#include "rates/link_loss.hpp"

namespace spadework {
namespace {

/// Digit for digit where the source prints that many.
doctest::Approx printed(double value) {
    return doctest::Approx(value).epsilon(1e-12);
}

/// A value as it is printed with so many digits behind the point.
double to_digits(double value, int digits) {
    const double power = std::pow(10, digits);
    return std::round(value * power) / power;
}

/// What may be lost between launch and sensitivity.
double available(double launch_dbm, double sensitivity_dbm) {
    OpticalFigures figures;
    figures.launch_min_dbm = launch_dbm;
    figures.receive_min_dbm = sensitivity_dbm;
    return loss_limit_db(figures);
}

}  // namespace

TEST_CASE("FORM-1: MAL = Aca L + Nco Lco + Ns Ls (MIL-STD-2042-6B(SH) 3.3.2)") {
    const LossBudget budget{0.4, 0, {{2, 0.75}, {3, 0.3}}};
    CHECK(total_loss_db(budget, 2.5) == printed(0.4 * 2.5 + 2 * 0.75 + 3 * 0.3));
    CHECK(total_loss_db({}, 100) == 0);
}

TEST_CASE(
    "WE-1: 2 connectors of 1 dB, 6 km at 3.5 dB/km and 6 dB of margin make 29.0 dB (Keiser, Optical Fiber "
    "Communications, example 8.1)") {
    const LossBudget budget{3.5, 0, {{2, 1}, {1, 6}}};
    CHECK(total_loss_db(budget, 6) == printed(29.0));
    CHECK(available(-13, -42) == printed(29.0));  // the LED's and the receiver's figures, values from memory
}

TEST_CASE(
    "WE-2: 35 dB are allowed and 7.0 dB left: source connector 1 dB, two jumpers with connector 4 dB each, 60 km "
    "at 0.3 dB/km, receiver connector 1 dB (Keiser, example 8.2)") {
    const LossBudget budget{0.3, 0, {{1, 1}, {2, 4}, {1, 1}}};
    CHECK(available(3, -32) == printed(35));
    CHECK(available(3, -32) - total_loss_db(budget, 60) == printed(7.0));
}

TEST_CASE(
    "WE-3: 28.7 dB of 31 dB leave 2.3 dB: 7 km at 2.6 dB/km, 6 splices of 0.5 dB, connector 1.5 dB, margin 6 dB "
    "(textbook companion, example 8.10; output computed)") {
    const LossBudget budget{2.6, 0, {{6, 0.5}, {1, 1.5}, {1, 6}}};
    CHECK(total_loss_db({2.6, 0, {}}, 7) == printed(18.2));
    CHECK(available(-10, -41) == printed(31));
    CHECK(total_loss_db(budget, 7) == printed(28.7));
    CHECK(available(-10, -41) - total_loss_db(budget, 7) == printed(2.3));
}

TEST_CASE(
    "WE-4: 14.0 dB of 15.0 dB leave 1.0 dB; 0 dBm and 7 dB of margin reach 1.9 km farther (textbook companion, "
    "example 12.13; output computed)") {
    const LossBudget budget{3.5, 0.7, {{1, 1.6}, {1, 4}}};
    CHECK(available(-10, -25) == printed(15.0));
    CHECK(total_loss_db(budget, 2) == printed(14.0));
    CHECK(available(-10, -25) - total_loss_db(budget, 2) == printed(1.0));
    const LossBudget stronger{3.5, 0.7, {{1, 1.6}, {1, 7}}};
    CHECK(to_digits(longest_km(stronger, available(0, -25)) - 2, 1) == 1.9);
}

TEST_CASE(
    "WE-5: 13.6 dB leave 1.4 dB; 0 dBm and 8 dB of margin reach 1.85 km farther (textbook companion, examples "
    "8.14a and b; output computed)") {
    const LossBudget budget{3.2, 0.8, {{1, 1.6}, {1, 4}}};
    CHECK(total_loss_db(budget, 2) == printed(13.6));
    CHECK(available(-10, -25) - total_loss_db(budget, 2) == printed(1.4));
    const LossBudget stronger{3.2, 0.8, {{1, 1.6}, {1, 8}}};
    CHECK(longest_km(stronger, available(0, -25)) - 2 == printed(1.85));
}

TEST_CASE(
    "WE-6: 41 dB of 50 dB leave 9 dB: 15 km at 2 dB/km, detector 1 dB, 10 splices of 0.5 dB, headroom 5 dB "
    "(Wilson and Hawkes, Optoelectronics, example 9.2)") {
    const LossBudget budget{2, 0, {{1, 1}, {10, 0.5}, {1, 5}}};
    CHECK(total_loss_db(budget, 15) == printed(41));
    CHECK(available(0, -50) - total_loss_db(budget, 15) == printed(9));
}

TEST_CASE(
    "WE-7: 5 km at 4 dB/km with splices at 0.7 dB/km and connectors of 4 and 3.5 dB make 31 dB (textbook "
    "companion)") {
    CHECK(total_loss_db({4, 0.7, {{1, 4}, {1, 3.5}}}, 5) == printed(31));
}

TEST_CASE(
    "WE-8: the lengths for a budget are 78.89 km at the low rate and 56.67 km at the high (textbook companion; "
    "value computed)") {
    const LossBudget budget{0.35, 0.1, {{1, 1}, {1, 6}}};
    CHECK(to_digits(longest_km(budget, available(-2.5, -45)), 2) == 78.89);
    CHECK(to_digits(longest_km(budget, available(-2.5, -35)), 2) == 56.67);
}

TEST_CASE("WE-9: 3.50 + 0.01 + 1.00 + 3.00 make 7.51 dB at 1310 nm over 10 km (personal teaching page, piterow.us)") {
    CHECK(total_loss_db({0.35, 0, {{1, 0.01}, {2, 0.5}, {1, 3}}}, 10) == printed(7.51));
}

TEST_CASE(
    "WE-10: 2 km of multimode with 5 connections and a splice leave 11.2 dB typically and 7.95 dB at worst (FOA "
    "reference guide, loss budgets; value from memory)") {
    const auto plant = [](double per_km, double connection) {
        return total_loss_db({per_km, 0, {{5, connection}, {1, 0.3}}}, 2);
    };
    CHECK(plant(1.0, 0.3) == printed(3.8));
    CHECK(plant(1.5, 0.75) == printed(7.05));
    CHECK(available(-16, -31) == printed(15));
    CHECK(available(-16, -31) - plant(1.0, 0.3) == printed(11.2));
    CHECK(available(-16, -31) - plant(1.5, 0.75) == printed(7.95));
    CHECK(plant(3.0, 0.3) == printed(7.8));
    CHECK(plant(3.5, 0.75) == printed(11.05));
}

TEST_CASE(
    "WE-11: -17 dBm arrive and 14 dB are spare after the margin (inputs of ques10.com/p/69139; answer computed)") {
    const LossBudget budget{6, 0, {{2, 2}}};
    CHECK(-10 - total_loss_db(budget, 0.5) == printed(-17));
    CHECK(available(-10, -35) - total_loss_db(budget, 0.5) - 4 == printed(14));
}

TEST_CASE("a budget at its longest length comes to exactly what may be lost") {
    const LossBudget budget{0.4, 0.05, {{2, 0.75}, {4, 0.3}}};
    for (const double available_db : {3.0, 6.0, 9.4, 28.0})
        CHECK(total_loss_db(budget, longest_km(budget, available_db)) == printed(available_db));
    CHECK(longest_km(budget, 2.0) < 0);
}

TEST_CASE("where nothing is lost by the kilometre no length ends a budget, unless its items do") {
    CHECK(longest_km({0, 0, {{2, 0.75}}}, 1.5) == std::numeric_limits<double>::infinity());
    CHECK(longest_km({0, 0, {{2, 0.75}}}, 1.4) == -std::numeric_limits<double>::infinity());
}

}  // namespace spadework
