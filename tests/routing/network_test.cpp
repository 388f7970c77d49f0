#include "routing/network.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

using drawing::Dice;

OpeningMethod method(double opening_cents, double duct_cents, double pull_hours) {
    OpeningMethod way;
    way.id = "way";
    way.plant_per_metre = UnitPrice::from_minor(opening_cents);
    way.duct_per_metre = UnitPrice::from_minor(duct_cents);
    way.pull_hours_per_metre = pull_hours;
    return way;
}

Scenario one_segment(double metres) {
    Scenario site = drawing::bare_site();
    const PlaceIndex end = drawing::add_place(site);
    drawing::add_segment(site, 0, end, metres);
    drawing::add_building(site, end);
    return site;
}

}  // namespace

TEST_CASE("every way of a segment becomes an edge between its places, with its opening cost and its length") {
    Scenario site = one_segment(30);
    site.grounds[0].methods = {method(2000, 0, 0), method(1500, 100, 0)};
    site.segments[0].charges = {{"road", ChargeCategory::crossing, Money::from_minor(700)}};
    const Network network = network_of(site);
    REQUIRE(network.edges.size() == 2);
    CHECK(network.vertex_count == 2);
    CHECK(network.edges[0].tail == 0);
    CHECK(network.edges[0].head == 1);
    CHECK(network.edges[0].length == 30000);
    CHECK(network.edges[0].opening == network.scale.units(Money::from_minor(30 * 2000 + 700)));
    CHECK(network.edges[1].opening == network.scale.units(Money::from_minor(30 * 1500 + 700)));
    CHECK(network.origin[1].segment == 0);
    CHECK(network.origin[1].way == 1);
}

TEST_CASE("a banned segment has no edge, and a withheld way has none either") {
    Scenario site = one_segment(30);
    site.segments[0].duct_room = 2;
    REQUIRE(network_of(site).edges.size() == 2);
    CHECK(network_of(site, {{0, 1}}).edges.size() == 1);
    CHECK(network_of(site, {{0, 0}}).edges.size() == 1);
    CHECK(network_of(site, {{0, 0}}).origin[0].way == 1);
    site.segments[0].ban = "graveyard";
    CHECK(network_of(site).edges.empty());
}

TEST_CASE("an existing duct keeps its room and a full one is not offered") {
    Scenario site = one_segment(30);
    site.segments[0].duct_room = 2;
    const Network network = network_of(site);
    CHECK(network.origin[0].room == -1);
    CHECK(network.origin[1].room == 2);
    site.segments[0].duct_room = 0;
    CHECK(network_of(site).edges.size() == 1);
}

TEST_CASE("a way that neither opens nor passes cheaper than an earlier one is left out") {
    Scenario site = one_segment(30);
    SUBCASE("dearer to open and to pass") {
        site.grounds[0].methods = {method(1000, 50, 0), method(1500, 80, 0)};
        CHECK(network_of(site).edges.size() == 1);
    }
    SUBCASE("dearer to open but cheaper to pass stays") {
        site.grounds[0].methods = {method(1000, 50, 0), method(1500, 20, 0)};
        CHECK(network_of(site).edges.size() == 2);
    }
    SUBCASE("the same as an earlier one") {
        site.grounds[0].methods = {method(1000, 50, 0), method(1000, 50, 0)};
        CHECK(network_of(site).edges.size() == 1);
    }
    SUBCASE("only because of a duct with little room") {
        // The pole line is dearer than the duct in every way, but a second cable has no room in the duct: the digging
        // way is the only one the duct cannot push out, because it comes first.
        site.segments[0].duct_room = 1;
        site.segments[0].pole_line = true;
        const Network network = network_of(site);
        REQUIRE(network.edges.size() >= 2);
        CHECK(network.origin[0].way == 0);
    }
}

TEST_CASE("no edge and no rate is ever dearer in the network than it is in money") {
    Dice dice(3);
    for (int round = 0; round < 3000; ++round) {
        Scenario site = one_segment(static_cast<double>(dice.between(1, 4'000'000)) / 1000.0);
        site.labour.installer_rate = UnitPrice::from_thousandths(dice.between(0, 9'000'000));
        site.grounds[0].methods = {method(static_cast<double>(dice.between(0, 9'000'000)) / 1000.0,
                                          static_cast<double>(dice.between(0, 900'000)) / 1000.0,
                                          static_cast<double>(dice.between(0, 1000)) / 7000.0)};
        const Network network = network_of(site);
        REQUIRE(network.edges.size() == 1);
        const OpeningMethod& way = site.grounds[0].methods[0];
        const auto metres = static_cast<long double>(site.segments[0].length.millimetres()) / 1000.0L;
        const long double scale = static_cast<long double>(network.scale.per_minor);
        const long double passage_cents = metres *
                                          (static_cast<long double>(way.duct_per_metre.thousandths()) +
                                           static_cast<long double>(site.labour.installer_rate.thousandths()) *
                                               static_cast<long double>(way.pull_hours_per_metre)) /
                                          1000.0L;
        CHECK(network.edges[0].passage <= passage_cents * scale + 1e-3L);
        CHECK(network.edges[0].passage >= passage_cents * scale * (1 - 1e-9L) - 3);
        CHECK(network.edges[0].opening == network.scale.units(ways_of(site, 0)[0].opening));
    }
}

TEST_CASE("a cost in solver units is turned into money by rounding down, below zero too") {
    CostScale scale;
    scale.per_minor = 10;
    CHECK(scale.money(0).minor() == 0);
    CHECK(scale.money(19).minor() == 1);
    CHECK(scale.money(20).minor() == 2);
    CHECK(scale.money(-1).minor() == -1);
    CHECK(scale.money(-10).minor() == -1);
    CHECK(scale.money(-11).minor() == -2);
    CHECK(scale.units_per_millimetre(UnitPrice::from_thousandths(999'999)) == 9);
}

TEST_CASE("the scale leaves room for the sum of everything on sites of any size") {
    // Every cable along every edge, every edge opened: the solvers refuse sums of 2^58 and more.
    for (double metres = 1; metres < 1e8; metres *= 1.37) {
        Scenario site = drawing::row_site(3, metres);
        for (Segment& segment : site.segments)
            segment.duct_room = 5;
        site.existing_duct.duct_per_metre = UnitPrice::from_minor(1e-3);
        site.catalogue.cables.back().price_per_metre = UnitPrice::from_minor(50000);
        const Network network = network_of(site);
        double opening = 0;
        double length = 0;
        for (const auto& edge : network.edges) {
            opening += static_cast<double>(edge.opening);
            length += static_cast<double>(edge.length);
        }
        const double weight =
            static_cast<double>(network.scale.units_per_millimetre(site.catalogue.cables.back().price_per_metre));
        CHECK(opening + 10 * weight * length < std::ldexp(1.0, 58));
        CHECK(network.scale.per_minor >= 1);
    }
}

}  // namespace spadework
