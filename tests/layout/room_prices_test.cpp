#include "layout/room_prices.hpp"

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

/// A row of two segments with a duct in the first, and so many home runs through that duct.
RoutedLayout through_the_duct(int cables) {
    RoutedLayout routed;
    for (int c = 0; c < cables; ++c)
        routed.buildings.push_back({c, -1, {0, 1, {{0, 1}}}});
    return routed;
}

Scenario site_with_room(int room) {
    Scenario site = drawing::row_site(2, 50);
    site.segments[0].duct_room = room;
    return site;
}

}  // namespace

TEST_CASE("a network without existing ducts has no room to price") {
    const Network network = network_of(drawing::row_site(2, 50));
    RoomPrices prices(network);
    CHECK_FALSE(prices.any_room());
    CHECK(prices.rebate() == 0);
    CHECK_FALSE(prices.adjust(through_the_duct(0), 1000, 1.0));
}

TEST_CASE("a duct over its room gets dearer, by what the rebate takes back for each cable it has room for") {
    const Network network = network_of(site_with_room(2));
    RoomPrices prices(network);
    REQUIRE(prices.any_room());
    CHECK(prices.adjust(through_the_duct(3), 1'000'000, 1.0));
    const Network priced = prices.priced();
    const graph::Cost price = priced.edges[1].passage - network.edges[1].passage;
    CHECK(price > 0);
    CHECK(prices.rebate() == 2 * price);
    CHECK(priced.edges[0].passage == network.edges[0].passage);
    CHECK(priced.edges[2].passage == network.edges[2].passage);
}

TEST_CASE("a price falls again where room is left over, and never below nothing") {
    const Network network = network_of(site_with_room(2));
    RoomPrices prices(network);
    prices.adjust(through_the_duct(3), 1'000'000, 1.0);
    const graph::Cost high = prices.rebate();
    CHECK_FALSE(prices.adjust(through_the_duct(0), 1'000'000, 0.1));
    CHECK(prices.rebate() < high);
    for (int i = 0; i < 50; ++i)
        prices.adjust(through_the_duct(0), 1'000'000'000, 1.0);
    CHECK(prices.rebate() == 0);
}

TEST_CASE("cables up to the room of a duct leave its price at nothing") {
    RoomPrices prices(network_of(site_with_room(2)));
    CHECK_FALSE(prices.adjust(through_the_duct(2), 1'000'000, 1.0));
    CHECK(prices.rebate() == 0);
}

}  // namespace spadework
