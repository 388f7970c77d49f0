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

/// Digit for digit where the source prints that many.
doctest::Approx printed(double value) {
    return doctest::Approx(value).epsilon(1e-12);
}

}  // namespace

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

TEST_CASE("the longest glass is the reach, or where the loss of either direction ends before it") {
    const OpticProduct lx10 = standard("1000BASE-LX10");
    CHECK(longest_glass(lx10, path(1, 2), {}) == Length::from_metres(10000));
    // 6.0 dB less 4 pairs of 0.75 dB leave 3.0 dB: 7.5 km at 0.4 dB/km.
    CHECK(longest_glass(lx10, path(1, 4), {}) == Length::from_metres(7500));
    CHECK(longest_glass(lx10, path(1, 8), {}) == Length());
    CHECK(longest_glass(lx10, path(1, 9), {}) == Length());
}

TEST_CASE("an optic carries its longest glass, and not a metre more") {
    for (const char* name : {"1000BASE-LX", "1000BASE-LX10", "1000BASE-BX10", "10GBASE-LR"}) {
        for (int pairs = 2; pairs <= 5; ++pairs) {
            const OpticProduct optic = standard(name);
            GlassPath longest = path(0, pairs, 1);
            longest.glass = longest_glass(optic, longest, {});
            CAPTURE(name);
            CAPTURE(pairs);
            if (longest.glass == Length()) continue;
            CHECK(carries(optic, longest, {}));
            longest.glass += Length::from_metres(1);
            CHECK_FALSE(carries(optic, longest, {}));
        }
    }
}

TEST_CASE("two strands are attenuated each by the attenuator at its receiver, one strand by every attenuator on it") {
    Catalogue catalogue;
    catalogue.attenuators = {{"att-5", "att-5", 5, {}}, {"att-10", "att-10", 10, {}}};
    OpticProduct optic = standard("10GBASE-ER");
    const Attenuation two = attenuation_of(catalogue, optic, 0, 1);
    CHECK(two.to_building_db == 10);
    CHECK(two.to_hub_db == 5);
    optic.strand_use = StrandUse::bidirectional;
    const Attenuation one = attenuation_of(catalogue, optic, {}, 1);
    CHECK(one.to_building_db == 10);
    CHECK(one.to_hub_db == 10);
}

TEST_CASE("5 dB of attenuator let ER run back to back, 4.9 dB do not (RULE-3, OPT-11, from memory)") {
    const OpticProduct er = standard("10GBASE-ER");
    CHECK(carries(er, path(0.01, 2), {}, {5, 5}));
    CHECK_FALSE(carries(er, path(0.01, 2), {}, {4.9, 5}));
    CHECK_FALSE(carries(er, path(0.01, 2), {}, {5, 4.9}));
    // The channel may lose 11.1 dB here: 9.7 dB of attenuator beside 1.5 dB of connectors are too much.
    CHECK_FALSE(carries(er, path(0.01, 2), {}, {9.7, 5}));
}

TEST_CASE("glass shorter than the least length does not carry, at it it does") {
    const OpticProduct lx10 = standard("1000BASE-LX10");
    CHECK_FALSE(carries(lx10, path(0.000499, 2), {}));
    CHECK(carries(lx10, path(0.0005, 2), {}));
}

}  // namespace spadework
