#include "rates/cable_rates.hpp"

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {
namespace {

using small_site::metres;

Rules rules_with(Length rise, Length coil, Length handhole, double allowance_percent) {
    Rules rules;
    rules.slack = {rise, coil, handhole, Percent::from_percent(allowance_percent)};
    return rules;
}

/// Sold in steps of a millimetre and in any length.
CableProduct by_the_metre() {
    CableProduct cable = small_site::cable(12, 100, 5000);
    cable.length_step = Length::from_millimetres(1);
    cable.longest = metres(100000);
    return cable;
}

double in_feet(const CableLengths& lengths) {
    return lengths.with_slack.feet();
}

}  // namespace

TEST_CASE("the ordering allowance is on route, manholes and ends together (SLK-4, MIL-HDBK-1012/3)") {
    // 1000 ft, 4 manholes at 3/4 of a 24 ft perimeter, 10 ft each end, then 10 %: 1201.2 ft. The allowance on the route
    // alone would give 1192 ft. A millimetre is the grain of lengths, so 0.01 ft is allowed for.
    const Rules rules = rules_with(Length(), Length::from_feet(10), Length::from_feet(18), 10);
    const CableLengths lengths = cable_lengths(by_the_metre(), Length::from_feet(1000), 4, rules);
    CHECK(in_feet(lengths) == doctest::Approx(1201.2).epsilon(0.01 / 1201.2));
    CHECK(lengths.route == Length::from_feet(1000));
}

TEST_CASE(
    "a loop of 20 ft in each manhole and at each end comes on top of the route (SLK-1, University of Mississippi "
    "10.2.1)") {
    const Rules rules = rules_with(Length(), Length::from_feet(20), Length::from_feet(20), 0);
    CHECK(in_feet(cable_lengths(by_the_metre(), Length::from_feet(500), 3, rules)) == doctest::Approx(600.0));
}

TEST_CASE("a service loop of 3 m each end makes 6 m (SLK-5, UFGS-16768A 3.1.4)") {
    const Rules rules = rules_with(Length(), metres(3), Length(), 0);
    CHECK(cable_lengths(by_the_metre(), metres(100), 0, rules).with_slack == metres(106));
}

TEST_CASE("each end pays its rise and its coil") {
    const Rules rules = rules_with(metres(2), metres(3), metres(4), 0);
    CHECK(cable_lengths(by_the_metre(), metres(100), 0, rules).with_slack == metres(110));
    CHECK(cable_lengths(by_the_metre(), metres(100), 2, rules).with_slack == metres(118));
}

TEST_CASE("an allowance that does not come out in whole millimetres is rounded up, never down") {
    const Rules rules = rules_with(Length(), Length(), Length(), 10);
    CHECK(cable_lengths(by_the_metre(), Length::from_millimetres(10), 0, rules).with_slack.millimetres() == 11);
    CHECK(cable_lengths(by_the_metre(), Length::from_millimetres(11), 0, rules).with_slack.millimetres() == 13);
}

TEST_CASE("factory-made cables are ordered in whole steps: at a step as needed, above it the next") {
    const Rules rules = rules_with(Length(), Length(), Length(), 0);
    const CableProduct cable = small_site::cable(12, 100, 5000);
    CHECK(cable_lengths(cable, metres(119.999), 0, rules).ordered == metres(120));
    CHECK(cable_lengths(cable, metres(120), 0, rules).ordered == metres(120));
    CHECK(cable_lengths(cable, metres(120.001), 0, rules).ordered == metres(130));
}

TEST_CASE("cable for splicing is cut from the drum in whole metres") {
    Rules rules = rules_with(Length(), Length(), Length(), 0);
    rules.termination = Termination::spliced;
    CHECK(cable_lengths(small_site::cable(12, 100, 5000), metres(120.001), 0, rules).ordered == metres(121));
}

TEST_CASE("a cable up to the longest factory length has no joint, one step above it has one") {
    const Rules rules = rules_with(Length(), Length(), Length(), 0);
    const CableProduct cable = small_site::cable(12, 100, 5000);
    CHECK(cable_lengths(cable, metres(999), 0, rules).joints == 0);
    CHECK(cable_lengths(cable, metres(1000), 0, rules).joints == 0);
    CHECK(cable_lengths(cable, metres(1001), 0, rules).joints == 1);
    CHECK(cable_lengths(cable, metres(2000), 0, rules).joints == 1);
    CHECK(cable_lengths(cable, metres(2001), 0, rules).joints == 2);
}

TEST_CASE("light passes a splice at every joint, and one at either end where ends are spliced") {
    CableLengths lengths;
    lengths.joints = 3;
    Rules rules;
    rules.termination = Termination::factory;
    CHECK(splices_in(lengths, rules) == 3);
    rules.termination = Termination::spliced;
    CHECK(splices_in(lengths, rules) == 5);
}

TEST_CASE("lengths never shrink from the map to the order, and grow with the route") {
    const Rules rules = rules_with(metres(1.3), metres(2.7), metres(1.9), 3.25);
    const CableProduct cable = small_site::cable(12, 100, 5000);
    for (int mm = 1; mm < 3000000; mm += 7919) {
        const CableLengths lengths = cable_lengths(cable, Length::from_millimetres(mm), mm % 5, rules);
        REQUIRE(lengths.route <= lengths.with_slack);
        REQUIRE(lengths.with_slack <= lengths.ordered);
        const CableLengths next = cable_lengths(cable, Length::from_millimetres(mm + 1), mm % 5, rules);
        REQUIRE(lengths.with_slack <= next.with_slack);
    }
}

TEST_CASE("the least prices never exceed what an order of any length costs") {
    const Rules rules = rules_with(metres(1.3), metres(2.7), Length(), 3.25);
    CableProduct cable = small_site::cable(12, 0, 5000);
    for (int mm = 1; mm < 3000000; mm += 7919) {
        cable.price_per_metre = UnitPrice::from_thousandths(1 + (mm * 31) % 250007);
        const Length route = Length::from_millimetres(mm);
        const Money ordered = amount(cable.price_per_metre, cable_lengths(cable, route, 0, rules).ordered);
        const Money least =
            amount(least_price_per_route_metre(cable, rules), route) + least_price_of_ends(cable, rules);
        // Each is rounded by itself: a bound takes one minor unit off for the sum.
        REQUIRE(least.minor() - 1 <= ordered.minor());
    }
}

TEST_CASE("a factory-made end costs its price and the plugging of the strands in use") {
    const Scenario site = small_site::site();
    const EndWork end = end_work(site.catalogue.cables[small_site::cable_12], 4, site);
    CHECK(end.material.minor() == 5000);
    CHECK(end.time == WorkTime::from_minutes(20));
    CHECK(end.total().minor() == 5000 + 1200);
}

TEST_CASE("a spliced end costs a pigtail and a splice for each strand in use, and the set-up") {
    Scenario site = small_site::site();
    site.rules.termination = Termination::spliced;
    const EndWork end = end_work(site.catalogue.cables[small_site::cable_12], 4, site);
    CHECK(end.material.minor() == 3200);
    CHECK(end.time == WorkTime::from_minutes(54));
    CHECK(end.total().minor() == 3200 + 6480);
}

TEST_CASE("a joint splices all strands of the cable, used or not, and testing counts strands") {
    const Scenario site = small_site::site();
    CHECK(joint_work(site.catalogue.cables[small_site::cable_12], site).time == WorkTime::from_minutes(30 + 12 * 6));
    CHECK(test_work(3, site.labour).time == WorkTime::from_minutes(30));
    CHECK(test_work(3, site.labour).amount.minor() == 1800);
}

}  // namespace spadework
