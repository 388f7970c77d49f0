#include "rates/gear_rates.hpp"

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {
namespace {

using small_site::megabits;

constexpr int converter = 0, switch_8 = 1;

Building with_devices(std::vector<DeviceGroup> devices) {
    return small_site::building("house", 0, std::move(devices));
}

GearNeed one_link() {
    return {1, megabits(1000)};
}

/// The product and number of pieces chosen; -1 of 0 when nothing serves.
std::pair<int, int> chosen(const Scenario& site, const Building& building, const GearNeed& need) {
    const auto pieces = cheapest_building_gear(site, building, need);
    return pieces ? std::pair{pieces->product, pieces->count} : std::pair{-1, 0};
}

}  // namespace

TEST_CASE(
    "power is counted at the supplying port's figure of each class (POE-1 to POE-8, IEEE 802.3 clauses 33 and 145)") {
    struct Row {
        double device_w, source_w;
    };
    for (const Row& row : {Row{3.84, 4}, Row{6.49, 7}, Row{12.95, 15.4}, Row{25.5, 30}, Row{40, 45}, Row{51, 60},
                           Row{62, 75}, Row{71.3, 90}}) {
        CHECK(*poe_demand_w(with_devices({{"device", 1, row.device_w}})) == row.source_w);
        CHECK(*poe_demand_w(with_devices({{"device", 3, row.device_w}})) == doctest::Approx(3 * row.source_w));
    }
    CHECK(*poe_demand_w(with_devices({{"device", 1, 3.85}})) == 7);
    CHECK(*poe_demand_w(with_devices({{"device", 1, 12.96}})) == 30);
}

TEST_CASE("a device above class 8 cannot be fed, one without power takes none") {
    CHECK_FALSE(poe_demand_w(with_devices({{"oven", 1, 71.4}})));
    CHECK(*poe_demand_w(with_devices({{"desk", 5, 0}})) == 0);
}

TEST_CASE("a supply of exactly the demand serves, one a watt short takes the next size") {
    Scenario site = small_site::site();
    // Four class 3 devices: 61.6 W, although they need 48 W.
    const Building four = with_devices({{"camera", 4, 12.0}});
    site.catalogue.building_gear[switch_8].poe_budget_w = 61.6;
    CHECK(chosen(site, four, one_link()) == std::pair{switch_8, 1});
    site.catalogue.building_gear[switch_8].poe_budget_w = 60.6;
    CHECK(chosen(site, four, one_link()) == std::pair{switch_8, 2});
}

TEST_CASE("thirteen class 3 devices are fed by exactly 200.2 W, though thirteen times 15.4 is more in binary") {
    Scenario site = small_site::site();
    site.catalogue.building_gear[switch_8].copper_ports = 16;
    site.catalogue.building_gear[switch_8].poe_budget_w = 200.2;
    CHECK(chosen(site, with_devices({{"camera", 13, 12.0}}), one_link()) == std::pair{switch_8, 1});
    site.catalogue.building_gear[switch_8].poe_budget_w = 200.1;
    CHECK(chosen(site, with_devices({{"camera", 13, 12.0}}), one_link()) == std::pair{switch_8, 2});
}

TEST_CASE("one device takes a media converter, two a switch") {
    const Scenario site = small_site::site();
    CHECK(chosen(site, with_devices({}), one_link()) == std::pair{converter, 1});
    CHECK(chosen(site, with_devices({{"camera", 1, 12.0}}), one_link()) == std::pair{converter, 1});
    CHECK(chosen(site, with_devices({{"camera", 2, 12.0}}), one_link()) == std::pair{switch_8, 1});
}

TEST_CASE("switches side by side lose a port at each end of the link between them") {
    const Scenario site = small_site::site();
    CHECK(chosen(site, with_devices({{"phone", 8, 0}}), one_link()) == std::pair{switch_8, 1});
    CHECK(chosen(site, with_devices({{"phone", 14, 0}}), one_link()) == std::pair{switch_8, 2});
    CHECK(chosen(site, with_devices({{"phone", 15, 0}}), one_link()) == std::pair{switch_8, 3});
}

TEST_CASE("spare ports count in every building, so that one device with a spare port takes a switch") {
    Scenario site = small_site::site();
    const Building one = with_devices({{"sensor", 1, 0}});
    CHECK(copper_ports_needed(one, site.rules) == 1);
    CHECK(chosen(site, one, one_link()) == std::pair{converter, 1});
    site.rules.spare_copper_ports = 1;
    CHECK(copper_ports_needed(one, site.rules) == 2);
    CHECK(chosen(site, one, one_link()) == std::pair{switch_8, 1});
}

TEST_CASE("optic ports and rate must suffice") {
    const Scenario site = small_site::site();
    const Building bare = with_devices({});
    CHECK(chosen(site, bare, {2, megabits(1000)}) == std::pair{switch_8, 1});
    CHECK(chosen(site, bare, {4, megabits(1000)}) == std::pair{switch_8, 1});
    CHECK(chosen(site, bare, {5, megabits(1000)}).first == -1);
    CHECK(chosen(site, bare, {1, megabits(10000)}).first == -1);
}

TEST_CASE("the hub takes nothing while free ports suffice, and one switch more above them") {
    Scenario site = small_site::site();
    site.hub.free_optic_ports = 3;
    CHECK(cheapest_hub_gear(site, 3, megabits(1000))->empty());
    CHECK(cheapest_hub_gear(site, 11, megabits(1000))->front().count == 1);
    CHECK(cheapest_hub_gear(site, 12, megabits(1000))->front().count == 2);
    CHECK_FALSE(cheapest_hub_gear(site, 4, megabits(25000)));
    CHECK(price_of(site, *cheapest_hub_gear(site, 12, megabits(1000))).minor() == 2 * 33600);
}

TEST_CASE("enclosures are chosen by price with their installation; an empty one is one still") {
    const Scenario site = small_site::site();
    CHECK(cheapest_enclosures(site, 0)->front().product == 0);
    CHECK(cheapest_enclosures(site, 8)->front().product == 0);
    // Two of 8 cost 508.00 installed, one of 24 costs 364.00.
    CHECK(cheapest_enclosures(site, 9)->front().product == 1);
    CHECK(price_of_enclosures(site, *cheapest_enclosures(site, 9)).minor() == 31000 + 5400);
    CHECK(cheapest_enclosures(site, 25)->size() == 2);
}

TEST_CASE("devices are whole: two switches of 20 W feed one class 3 device each, not three in all") {
    Scenario site = small_site::site();
    BuildingGearProduct& product = site.catalogue.building_gear[switch_8];
    product.poe_budget_w = 24;
    // 46.2 W are asked for; two pieces supply 48 W, and each feeds one device of 15.4 W.
    CHECK_FALSE(power_suffices(product, 2, with_devices({{"camera", 3, 12.0}})));
    CHECK(power_suffices(product, 3, with_devices({{"camera", 3, 12.0}})));
    CHECK(chosen(site, with_devices({{"camera", 3, 12.0}}), one_link()) == std::pair{switch_8, 3});
}

TEST_CASE("a media converter a watt short of its one device's class does not serve it") {
    Scenario site = small_site::site();
    site.catalogue.building_gear = {site.catalogue.building_gear[converter]};
    const Building one = with_devices({{"camera", 1, 12.95}});
    site.catalogue.building_gear[0].poe_budget_w = 15.4;
    CHECK(chosen(site, one, one_link()) == std::pair{0, 1});
    site.catalogue.building_gear[0].poe_budget_w = 14.4;
    CHECK(chosen(site, one, one_link()).first == -1);
    const auto nearest = nearest_building_gear(site, one, one_link());
    REQUIRE(nearest);
    CHECK(nearest->count == 1);
}

TEST_CASE("the nearest gear is the one that fails the fewest needs") {
    const Scenario site = small_site::site();
    // Ten gigabits are beyond both; the switch has the ports for the three devices besides.
    const auto nearest = nearest_building_gear(site, with_devices({{"camera", 3, 12.0}}), {1, megabits(10000)});
    REQUIRE(nearest);
    CHECK(nearest->product == switch_8);
}

TEST_CASE("hub gear gives optic and copper ports together, at the least price for both") {
    Scenario site = small_site::site();
    site.hub.devices = {{"recorder", 2}, {"server", 3}};
    CHECK(hub_copper_ports_needed(site.hub) == 5);
    CHECK_FALSE(cheapest_hub_gear(site, 2, megabits(1000)));  // core-8 has no copper
    HubGearProduct copper = site.catalogue.hub_gear[0];
    copper.id = "copper-4";
    copper.optic_ports = 1;
    copper.copper_ports = 4;
    copper.fastest_rate = megabits(100);
    copper.price = small_site::cents(5000);
    site.catalogue.hub_gear.push_back(copper);
    const auto gear = cheapest_hub_gear(site, 2, megabits(1000));
    REQUIRE(gear);
    REQUIRE(gear->size() == 2);  // the slow switch counts for its copper alone
    CHECK(gear->at(0).count == 1);
    CHECK(gear->at(1).count == 2);
    site.hub.free_copper_ports = 1;
    CHECK(cheapest_hub_gear(site, 2, megabits(1000))->at(1).count == 1);
    site.hub.free_copper_ports = 5;
    CHECK(cheapest_hub_gear(site, 2, megabits(1000))->size() == 1);
}

TEST_CASE("growth ports are wanted beside those in use, and a second switch comes where the first is full") {
    Scenario site = small_site::site();
    CHECK(cheapest_hub_gear(site, 8, megabits(1000))->front().count == 1);
    site.hub.growth_ports = 1;
    CHECK(cheapest_hub_gear(site, 8, megabits(1000))->front().count == 2);
    site.hub.free_optic_ports = 1;
    CHECK(cheapest_hub_gear(site, 8, megabits(1000))->front().count == 1);
}

TEST_CASE("the least price of the hub never falls with more ports, so that a bound with fewer stays below") {
    Scenario site = small_site::site();
    site.hub.devices = {{"server", 3}};
    site.catalogue.hub_gear[0].copper_ports = 1;
    HubGearProduct large = site.catalogue.hub_gear[0];
    large.optic_ports = 24;
    large.copper_ports = 2;
    large.price = small_site::cents(70000);
    site.catalogue.hub_gear.push_back(large);
    Money before;
    for (int ports = 0; ports <= 60; ++ports) {
        const Money price = price_of(site, *cheapest_hub_gear(site, ports, megabits(1000)));
        CHECK(price >= before);
        before = price;
    }
}

TEST_CASE("a hub without enough says which ports it lacks") {
    Scenario site = small_site::site();
    site.catalogue.hub_gear.clear();
    site.hub.free_optic_ports = 4;
    CHECK(cheapest_hub_gear(site, 4, megabits(1000))->empty());
    CHECK_FALSE(cheapest_hub_gear(site, 5, megabits(1000)));
    CHECK(why_no_hub_gear(site, 5, megabits(1000)) ==
          "hub: 5 optic ports are needed, 4 are free, and no gear in the catalogue has more at 1G");
    site.hub.devices = {{"server", 2}};
    CHECK(why_no_hub_gear(site, 4, megabits(1000)) ==
          "hub: 2 copper ports are needed, 0 are free, and no gear in the catalogue has more at 1G");
}

}  // namespace spadework
