#include "layout/rerouting.hpp"

#include <algorithm>
#include <set>
#include <vector>

#include <doctest/doctest.h>

#include "layout/added_cable.hpp"
#include "layout/assembly.hpp"
#include "layout/design.hpp"
#include "layout/support/drawn_site.hpp"
#include "support/small_site.hpp"

using namespace spadework;

TEST_CASE("the routes of a plan make the same plan again") {
    const Scenario site = small_site::site();
    for (const LayoutKind kind : {LayoutKind::home_runs, LayoutKind::trunk_one, LayoutKind::daisy_chain}) {
        const Design first = design(kind, site, {});
        REQUIRE(first.plan.has_value());
        const Assembly again = assemble(site, routes_of(*first.plan));
        REQUIRE(again.plan.has_value());
        CHECK(again.plan->trenches == first.plan->trenches);
        CHECK(cost_to_build(site, *again.plan) == cost_to_build(site, *first.plan));
    }
}

TEST_CASE("one more cable takes the trench that is open, unless the detour costs its cable more") {
    Scenario site = drawing::bare_site();  // Place 1 is 100 m off, or by way of place 2 so many metres.
    const PlaceIndex there = drawing::add_place(site);
    const PlaceIndex corner = drawing::add_place(site);
    drawing::add_segment(site, 0, there, 100);
    const SegmentIndex first = drawing::add_segment(site, 0, corner, 100);
    const SegmentIndex second = drawing::add_segment(site, corner, there, 100);
    const Network network = network_of(site);
    CableFigures light;
    light.weight = network.scale.units_per_millimetre(UnitPrice::from_minor(100));
    CableFigures heavy = light;
    heavy.weight = network.scale.units_per_millimetre(UnitPrice::from_minor(3000));
    const std::set<Step> open = {{first, 0}, {second, 0}};
    CHECK(AddedCable(network, light, open, 0).way_to(there).size() == 2);
    CHECK(AddedCable(network, light, {}, 0).way_to(there).size() == 1);
    CHECK(AddedCable(network, heavy, open, 0).way_to(there).size() == 1);
    // 200 m at 1.00 in open trench, in solver units.
    CHECK(AddedCable(network, light, open, 0).cost_to(there) == network.scale.units(Money::from_minor(200'00)));
}

TEST_CASE("a building taken out of a chain leaves its neighbours joined and the rest renumbered") {
    const Scenario site = small_site::site();
    const RoutedLayout routed = routes_of(small_site::chain(site));
    const auto fewer = routes_without(site, network_of(site), routed, small_site::barn);
    REQUIRE(fewer.has_value());
    CHECK(fewer->chains == std::vector<std::vector<BuildingIndex>>{{0}});
    REQUIRE(fewer->buildings.size() == 1);
    CHECK(fewer->buildings[0].route.from == small_site::hub);
    CHECK(fewer->buildings[0].route.to == small_site::mill_place);
    CHECK(fewer->buildings[0].route.steps == std::vector<Step>{{small_site::drive, 0}, {small_site::lane, 0}});
    CHECK(!routes_without(without_building(site, small_site::barn), network_of(site), *fewer, 0).has_value());
}

TEST_CASE("a building of a chain moves to every other place that is left") {
    const Scenario site = small_site::site();
    const RoutedLayout routed = routes_of(small_site::chain(site));  // hub > barn > mill
    const auto moved = routes_elsewhere_in_chain(site, network_of(site), routed, small_site::mill, 10);
    std::vector<std::vector<std::vector<BuildingIndex>>> chains;
    for (const RoutedLayout& routes : moved)
        chains.push_back(routes.chains);
    std::sort(chains.begin(), chains.end());
    CHECK(chains == std::vector<std::vector<std::vector<BuildingIndex>>>{{{small_site::barn}, {small_site::mill}},
                                                                         {{small_site::mill, small_site::barn}}});
}

TEST_CASE("an enclosure left without buildings goes, and a building may change to the hub") {
    const Scenario site = small_site::site();
    RoutedLayout routed = routes_of(small_site::trunk(site));
    routed.kind = LayoutKind::mixed;
    const Network network = network_of(site);
    const auto one = routes_served_from(site, network, routed, small_site::barn, -1);
    REQUIRE(one.has_value());
    CHECK(one->enclosures.size() == 1);
    const auto none = routes_served_from(site, network, *one, small_site::mill, -1);
    REQUIRE(none.has_value());
    CHECK(none->enclosures.empty());
    CHECK(none->buildings[small_site::mill].served_by == -1);
}

TEST_CASE("a segment that is banned offers no way") {
    const Scenario site = without_segment(small_site::site(), small_site::lane);
    for (const NetworkEdge& edge : network_of(site).origin)
        CHECK(edge.segment != small_site::lane);
}
