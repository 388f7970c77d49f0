#include "routing/handhole_coils.hpp"

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

/// hub - a - b - unit, 10 m each; `a` and `b` are handholes.
Scenario site_with_two_handholes() {
    Scenario site = drawing::bare_site();
    for (int place = 0; place < 3; ++place)
        drawing::add_place(site);
    site.places[1].kind = site.places[2].kind = PlaceKind::handhole;
    for (PlaceIndex from = 0; from < 3; ++from)
        drawing::add_segment(site, from, from + 1, 10.0);
    site.rules.slack.coil_per_handhole = Length::from_millimetres(2001);
    return site;
}

std::vector<graph::Length> lengths(const Network& network) {
    std::vector<graph::Length> all;
    for (const auto& edge : network.edges)
        all.push_back(edge.length);
    return all;
}

}  // namespace

TEST_CASE("an edge takes half of the coil in the handhole at either end, rounded down") {
    const Scenario site = site_with_two_handholes();
    const Network network = with_handhole_coils(site, network_of(site));
    CHECK(lengths(network) == std::vector<graph::Length>{11000, 12000, 11000});
    CHECK(lengths(network_of(site)) == std::vector<graph::Length>{10000, 10000, 10000});
}

TEST_CASE("the hub's place and buildings' places take none, whatever they are") {
    Scenario site = site_with_two_handholes();
    site.places[0].kind = PlaceKind::handhole;
    drawing::add_building(site, 2);
    const Network network = with_handhole_coils(site, network_of(site));
    CHECK(lengths(network) == std::vector<graph::Length>{11000, 11000, 10000});
}

TEST_CASE("half a coil of each cable is rounded up to minor units, cable by cable") {
    const Scenario site = site_with_two_handholes();
    CHECK(half_coils(site, {}) == Money());
    CHECK(half_coils(site, {UnitPrice::from_thousandths(84'100)}) == Money::from_minor(85));
    CHECK(half_coils(site, {UnitPrice::from_thousandths(84'100), UnitPrice::from_thousandths(1)}) ==
          Money::from_minor(86));
}

}  // namespace spadework
