#include "layout/least_costs.hpp"

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

constexpr auto one_gigabit = BitRate::from_megabits(1000);

}  // namespace

TEST_CASE("a link costs two optics, two patch cords and the testing of its strands") {
    const Scenario site = drawing::row_site(1, 100);
    const LeastCost cost = least_link_cost(site, site.buildings[0], one_gigabit, Length::from_metres(100));
    // 2 x 18.00 + 2 x 4.50 + 2 strands x 10 min at 36.00 an hour.
    CHECK(cost.impossible.empty());
    CHECK(cost.cost.minor() == 3600 + 900 + 1200);
}

TEST_CASE("a link without an optic that reaches is impossible, with the building and the reason") {
    const Scenario site = drawing::row_site(1, 100);
    const LeastCost cost = least_link_cost(site, site.buildings[0], one_gigabit, Length::from_metres(10001));
    CHECK(cost.impossible.find("building b000") == 0);
}

TEST_CASE("a site without patch cords for the links counts none") {
    Scenario site = drawing::row_site(1, 100);
    site.catalogue.patch_cords.clear();
    CHECK(least_link_cost(site, site.buildings[0], one_gigabit, Length()).cost.minor() == 3600 + 1200);
}

TEST_CASE("a building costs its links and its gear") {
    Scenario site = drawing::row_site(1, 100);
    // Converter 60.00 + half an hour at 36.00.
    CHECK(least_building_cost(site, 0, Length()).cost.minor() == 5700 + 6000 + 1800);
    site.buildings[0].links = {{one_gigabit, 2}};
    // Two optic ports: the converter has one; the small switch takes 210.00 + 18.00.
    CHECK(least_building_cost(site, 0, Length()).cost.minor() == 2 * 5700 + 21000 + 1800);
    site.buildings[0].links = {{one_gigabit, 9}};
    CHECK_FALSE(least_building_cost(site, 0, Length()).impossible.empty());
}

TEST_CASE("the hub buys switches for the ports it has not free") {
    Scenario site = drawing::row_site(1, 100);
    CHECK(least_hub_cost(site, 8, one_gigabit).cost.minor() == 30000 + 3600);
    CHECK(least_hub_cost(site, 9, one_gigabit).cost.minor() == 2 * (30000 + 3600));
    site.hub.free_optic_ports = 9;
    CHECK(least_hub_cost(site, 9, one_gigabit).cost.minor() == 0);
    CHECK_FALSE(least_hub_cost(site, 10, BitRate::from_megabits(40000)).impossible.empty());
}

TEST_CASE("the fastest rate and the most links of any building count for a chain") {
    Scenario site = drawing::row_site(3, 100);
    CHECK(fastest_rate(site) == one_gigabit);
    CHECK(links_per_hop(site) == 1);
    site.buildings[1].links = {{one_gigabit, 2}, {BitRate::from_megabits(10000), 1}};
    CHECK(fastest_rate(site) == BitRate::from_megabits(10000));
    CHECK(links_per_hop(site) == 3);
}

}  // namespace spadework
