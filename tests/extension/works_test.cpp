#include "extension/works.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {
namespace {

using namespace small_site;

const graph::SharedCostEdge* edge_of(const Network& network, SegmentIndex segment, int way) {
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        if (network.origin[e].segment == segment && network.origin[e].way == way) return &network.edges[e];
    }
    return nullptr;
}

constexpr int duct = 1;

/// The trunk along the drive lies in its existing duct.
Plan trunk_in_a_duct(const Scenario& site) {
    Plan plan = trunk(site);
    plan.cables[0].steps = {{drive, duct}};
    plan.trenches = {{drive, duct}, {lane, 0}, {path, 0}};
    return plan;
}

}  // namespace

TEST_CASE("a closed trench is opened again at the full price") {
    const Scenario site = small_site::site();
    const BuiltWorks works = works_of(site, trunk(site), megabits(1000));
    const Network network = network_beside(site, works);
    CHECK_FALSE(is_open(site, works, {drive, 0}));
    REQUIRE(edge_of(network, drive, 0) != nullptr);
    // 20.00 a metre, set-up, crossing and permit.
    CHECK(edge_of(network, drive, 0)->opening == network.scale.units(Money::from_minor(200000 + 5000 + 53000)));
}

TEST_CASE("a duct in use costs nothing more to open and takes as many more cables as it has room for") {
    Scenario site = small_site::site();
    site.segments[drive].duct_room = 2;
    const BuiltWorks works = works_of(site, trunk_in_a_duct(site), megabits(1000));
    CHECK(is_open(site, works, {drive, duct}));
    const Network network = network_beside(site, works);
    REQUIRE(edge_of(network, drive, duct) != nullptr);
    CHECK(edge_of(network, drive, duct)->opening == 0);
    for (const NetworkEdge& origin : network.origin) {
        if (origin.segment == drive && origin.way == duct) CHECK(origin.room == 1);
    }
}

TEST_CASE("a duct that the plan fills is not offered, and one it does not use keeps its price and its room") {
    Scenario site = small_site::site();
    site.segments[drive].duct_room = 1;
    site.segments[lane].duct_room = 3;
    site.existing_duct.set_up = Money::from_minor(700);
    const BuiltWorks works = works_of(site, trunk_in_a_duct(site), megabits(1000));
    const Network network = network_beside(site, works);
    CHECK(edge_of(network, drive, duct) == nullptr);
    REQUIRE(edge_of(network, lane, duct) != nullptr);
    CHECK(edge_of(network, lane, duct)->opening == network.scale.units(Money::from_minor(700)));
}

TEST_CASE("dark strands, free adapters and free ports are what no link uses") {
    const Scenario site = small_site::site();
    const BuiltWorks works = works_of(site, trunk(site), megabits(1000));
    CHECK(works.dark_strands == std::vector<int>{12 - 4, 2, 2});
    // An enclosure of 8 has the trunk's 4 in use, 2 spares and 2 for growth plugged.
    CHECK(works.free_adapters == std::vector<int>{0});
    CHECK(works.free_hub_ports == 8 - 2);
}

TEST_CASE("ports of switches too slow for what comes are not counted, and hold the old links first") {
    Scenario site = small_site::site();
    site.hub.free_optic_ports = 3;
    CHECK(works_of(site, trunk(site), megabits(25000)).free_hub_ports == 3);
    CHECK(works_of(site, trunk(site), megabits(10000)).free_hub_ports == 3 + 8 - 2);
}

}  // namespace spadework
