#include "rates/link_loss.hpp"

#include <doctest/doctest.h>

#include "catalogue/standard_optics.hpp"

namespace spadework {
namespace {

OpticProduct standard(const char* name) {
    const auto optic = standard_optic(name);
    REQUIRE(optic);
    return *optic;
}

GlassPath path(double kilometres, int mated_pairs = 0, int splices = 0) {
    return {Length::from_metres(kilometres * 1000.0), mated_pairs, splices};
}

/// Attenuation dB/km at every wavelength, a mated pair, a splice, a spare margin, dB.
LossRules allowances(double per_km, double pair, double splice, double spare) {
    return {per_km, per_km, pair, splice, spare};
}

double loss(const GlassPath& glass, const LossRules& rules) {
    return greatest_loss_db(glass, 1310, rules);
}

/// Launch and sensitivity alone.
double budget(double launch_dbm, double sensitivity_dbm) {
    OpticalFigures figures;
    figures.launch_min_dbm = launch_dbm;
    figures.receive_min_dbm = sensitivity_dbm;
    return loss_limit_db(figures);
}

/// Digit for digit where the source prints that many.
doctest::Approx printed(double value) {
    return doctest::Approx(value).epsilon(1e-12);
}

}  // namespace

// The textbook examples give connectors and splices that are not all alike; where one lists two kinds, the second is
// entered at the splice allowance. Loss a kilometre for splices is added to that of the fibre, as the sources do.

TEST_CASE(
    "two connectors, 6 km and a system margin make 29.0 dB (WE-1, Keiser, Optical Fiber Communications, ex. 8.1)") {
    CHECK(loss(path(6, 2), allowances(3.5, 1, 0, 6)) == printed(29.0));
    CHECK(budget(-13, -42) == printed(29.0));
}

TEST_CASE("35 dB allowed leave a margin of 7.0 dB (WE-2, Keiser ex. 8.2)") {
    // A connector of 1 dB at each end, two jumpers with connector of 4 dB each.
    CHECK(budget(3, -32) == printed(35));
    CHECK(budget(3, -32) - loss(path(60, 2, 2), allowances(0.3, 1, 4, 0)) == printed(7.0));
}

TEST_CASE(
    "28.7 dB of loss in 31 dB leave 2.3 dB (WE-3, textbook companion ex. 8.10; output computed from its formula)") {
    const double total = loss(path(7, 1, 6), allowances(2.6, 1.5, 0.5, 6));
    CHECK(total == printed(28.7));
    CHECK(budget(-10, -41) - total == printed(2.3));
}

TEST_CASE(
    "14.0 dB in 15.0 dB leave 1.0 dB, and more launch power 1.9 km (WE-4, textbook companion ex. 12.13; computed)") {
    CHECK(loss(path(2, 1), allowances(3.5 + 0.7, 1.6, 0, 4)) == printed(14.0));
    CHECK(budget(-10, -25) - loss(path(2, 1), allowances(4.2, 1.6, 0, 4)) == printed(1.0));
    const LossRules stronger = allowances(4.2, 1.6, 0, 7);
    CHECK(loss(path(2 + 1.904, 1), stronger) < budget(0, -25));
    CHECK(loss(path(2 + 1.905, 1), stronger) > budget(0, -25));
}

TEST_CASE("13.6 dB leave 1.4 dB, and more launch power 1.85 km (WE-5, textbook companion ex. 8.14; computed)") {
    const double total = loss(path(2, 1), allowances(3.2 + 0.8, 1.6, 0, 4));
    CHECK(total == printed(13.6));
    CHECK(budget(-10, -25) - total == printed(1.4));
    CHECK(loss(path(2 + 1.85, 1), allowances(4.0, 1.6, 0, 8)) == printed(budget(0, -25)));
}

TEST_CASE("41 dB of loss in 50 dB leave 9 dB (WE-6, Wilson and Hawkes, Optoelectronics, ex. 9.2)") {
    const double total = loss(path(15, 1, 10), allowances(2, 1, 0.5, 5));
    CHECK(total == printed(41));
    CHECK(budget(0, -50) - total == printed(9));
}

TEST_CASE("5 km with splices by the kilometre and two unlike connectors make 31 dB (WE-7, textbook companion)") {
    CHECK(loss(path(5, 1, 1), allowances(4 + 0.7, 4, 3.5, 0)) == printed(31));
}

TEST_CASE("the longest lengths are 78.89 km and 56.67 km (WE-8, textbook companion; computed)") {
    const LossRules rules = allowances(0.35 + 0.1, 1, 0, 6);
    CHECK(loss(path(78.885, 1), rules) < budget(-2.5, -45));
    CHECK(loss(path(78.895, 1), rules) > budget(-2.5, -45));
    CHECK(loss(path(56.665, 1), rules) < budget(-2.5, -35));
    CHECK(loss(path(56.675, 1), rules) > budget(-2.5, -35));
}

TEST_CASE(
    "10 km at 1310 nm with a splice, two connectors and a safety margin make 7.51 dB (WE-9, teaching page of "
    "piterow.us)") {
    CHECK(loss(path(10, 2, 1), allowances(0.35, 0.5, 0.01, 3)) == printed(7.51));
}

TEST_CASE(
    "2 km of multimode leave 11.2 dB typically and 7.95 dB at worst (WE-10, FOA reference guide; value from memory)") {
    const GlassPath plant = path(2, 5, 1);
    CHECK(loss(plant, allowances(1.0, 0.3, 0.3, 0)) == printed(3.8));
    CHECK(loss(plant, allowances(1.5, 0.75, 0.3, 0)) == printed(7.05));
    CHECK(budget(-16, -31) - loss(plant, allowances(1.0, 0.3, 0.3, 0)) == printed(11.2));
    CHECK(budget(-16, -31) - loss(plant, allowances(1.5, 0.75, 0.3, 0)) == printed(7.95));
    CHECK(loss(plant, allowances(3.0, 0.3, 0.3, 0)) == printed(7.8));
    CHECK(loss(plant, allowances(3.5, 0.75, 0.3, 0)) == printed(11.05));
}

TEST_CASE(
    "penalties come out of a budget from a sensitivity: LX10 may lose 6.0 dB, not 10.5 (RULE-1, IEEE 802.3 clause 59, "
    "from memory)") {
    const OpticProduct lx10 = standard("1000BASE-LX10");
    CHECK(loss_limit_db(lx10.to_building) == printed(6.0));
    // 8 km at 0.4 dB/km and 4 pairs at 0.75 dB are 6.2 dB: more than the plant may lose, less than the budget.
    CHECK(greatest_loss_db(path(8, 4), 1310, {}) == printed(6.2));
    CHECK_FALSE(carries(lx10, path(8, 4), {}));
    CHECK(carries(lx10, path(7.5, 4), {}));
}

TEST_CASE(
    "a least average receive power has its penalties out already: LR may lose 6.2 dB (RULE-2, IEEE 802.3 clause 52)") {
    CHECK(loss_limit_db(standard("10GBASE-LR").to_building) == printed(6.2));
    CHECK(loss_limit_db(standard("25GBASE-LR").to_building) == printed(6.3));
    CHECK(carries(standard("10GBASE-LR"), path(8, 4), {}));
}

TEST_CASE("only ER overloads back to back, and needs 5 dB of glass (RULE-3, IEEE 802.3 clause 52, from memory)") {
    for (const char* name : {"1000BASE-LX", "1000BASE-LX10", "1000BASE-BX10", "10GBASE-LR", "25GBASE-LR"})
        CHECK_MESSAGE(overload_excess_db(standard(name).to_building, 0) <= 0, name);
    const OpticProduct er = standard("10GBASE-ER");
    CHECK(overload_excess_db(er.to_building, 0) == printed(5.0));
    // 5 dB at 0.3 dB/km are 16.667 km of fibre; connectors are not counted on for it.
    CHECK_FALSE(carries(er, path(16.6, 4), {}));
    CHECK(carries(er, path(16.7, 4), {}));
}

TEST_CASE("reach and loss are limits each by itself (RULE-4, IEEE 802.3, from memory)") {
    const OpticProduct lx10 = standard("1000BASE-LX10");
    const LossRules clear = allowances(0.2, 0.1, 0.1, 0);
    CHECK(carries(lx10, path(10, 2), clear));
    CHECK_FALSE(carries(lx10, path(10.001, 2), clear));
    CHECK_FALSE(carries(lx10, path(1, 9), {}));
}

TEST_CASE(
    "each direction of a one-strand link is checked at its own wavelength (RULE-5, IEEE 802.3 clause 59, from "
    "memory)") {
    const OpticProduct bx10 = standard("1000BASE-BX10");
    CHECK(bx10.to_building.wavelength_nm == 1490);
    CHECK(bx10.to_hub.wavelength_nm == 1310);
    // Here only the direction at 1310 nm fails, and the link with it.
    OpticProduct uneven = bx10;
    uneven.to_building.wavelength_nm = 1550;
    uneven.to_building.penalties_db = 4.5;
    const LossRules rules;
    CHECK(greatest_loss_db(path(9, 4), 1550, rules) < loss_limit_db(uneven.to_building));
    CHECK(greatest_loss_db(path(9, 4), 1310, rules) > loss_limit_db(uneven.to_hub));
    CHECK_FALSE(carries(uneven, path(9, 4), rules));
}

TEST_CASE("attenuation falls to the 1550 nm figure at 1530 nm only (ATT-1, ATT-3, ITU-T G.652, from memory)") {
    const LossRules rules;
    CHECK(attenuation_db_per_km(1310, rules) == 0.4);
    CHECK(attenuation_db_per_km(1490, rules) == 0.4);
    CHECK(attenuation_db_per_km(1529, rules) == 0.4);
    CHECK(attenuation_db_per_km(1530, rules) == 0.3);
}

TEST_CASE("a loss at the limit passes, and a hundredth of a decibel above it fails") {
    OpticProduct lx10 = standard("1000BASE-LX10");
    // 2 km and 4 pairs: 0.8 + 3.0 = 3.8 dB. 2.2 dB spare margin is just allowed.
    LossRules rules;
    rules.spare_margin_db = 2.2;
    CHECK(carries(lx10, path(2, 4), rules));
    rules.spare_margin_db = 2.21;
    CHECK_FALSE(carries(lx10, path(2, 4), rules));
}

TEST_CASE("glass shorter than the least length does not carry, at it it does") {
    const OpticProduct lx10 = standard("1000BASE-LX10");
    CHECK_FALSE(carries(lx10, path(0.000499, 2), {}));
    CHECK(carries(lx10, path(0.0005, 2), {}));
}

}  // namespace spadework
