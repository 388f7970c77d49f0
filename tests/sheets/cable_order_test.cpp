#include "sheets/cable_order.hpp"

#include <doctest/doctest.h>

#include "costing/bill.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

/// What the bill has for cable by the metre.
Money cable_by_the_metre(const Bill& bill) {
    Money sum;
    for (const CostLine& line : bill.lines) {
        if (line.category == Category::cable && line.labour == WorkTime()) sum += line.amount;
    }
    return sum;
}

}  // namespace

TEST_CASE("an order sums to what the bill has for cable, and holds every cable at its need or more") {
    const Scenario site = small_site::site();
    for (const Plan& plan : {small_site::home_runs(site), small_site::trunk(site), small_site::chain(site)}) {
        const CableOrder order = cable_order(site, plan);
        CHECK(order.amount == cable_by_the_metre(price(site, plan)));
        std::size_t cables = 0;
        for (const OrderRow& row : order.rows) {
            CHECK(row.length * row.pieces == row.ordered);
            CHECK(row.ordered >= row.needed);
            CHECK(static_cast<std::size_t>(row.pieces) == row.cables.size());
            cables += row.cables.size();
        }
        CHECK(cables == plan.cables.size());
    }
}

TEST_CASE("waste is what the ordered metres beyond need cost") {
    Scenario site = small_site::site();
    site.rules.slack.coil_per_end = Length::from_metres(4);  // 142 m and 162 m with slack, 150 m and 170 m ordered
    const Plan plan = small_site::home_runs(site);
    const CableOrder order = cable_order(site, plan);
    Money waste;
    for (const PlannedCable& cable : plan.cables) {
        const auto& product = site.catalogue.cables[static_cast<std::size_t>(cable.product)];
        waste += amount(product.price_per_metre, cable.lengths.ordered) -
                 amount(product.price_per_metre, cable.lengths.with_slack);
    }
    CHECK(order.waste == waste);
    CHECK(order.waste > Money());
}

TEST_CASE("equal lengths of one product stand in one row") {
    const Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    plan.cables[0].lengths = plan.cables[1].lengths;
    const CableOrder order = cable_order(site, plan);
    REQUIRE(order.rows.size() == 1);
    CHECK(order.rows[0].pieces == 2);
    CHECK(order.rows[0].cables == std::vector<int>{0, 1});
}

TEST_CASE("cable with factory-made ends is not cut from a reel; cable to be spliced is, where that saves") {
    Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    CHECK(cable_order(site, plan).reels.empty());
    site.rules.termination = Termination::spliced;
    for (PlannedCable& cable : plan.cables) {
        cable.lengths.with_slack = Length::from_metres(100.4);
        cable.lengths.ordered = Length::from_metres(101);
    }
    const CableOrder order = cable_order(site, plan);
    REQUIRE(order.reels.size() == 1);
    CHECK(order.reels[0].needed == Length::from_metres(200.8));
    CHECK(order.reels[0].ordered == Length::from_metres(201));
    CHECK(order.saved_by_reels == amount(site.catalogue.cables[0].price_per_metre, Length::from_metres(1)));
}

TEST_CASE("no reel is longer than the longest that is made") {
    Scenario site = small_site::site();
    site.rules.termination = Termination::spliced;
    site.catalogue.cables[0].longest = Length::from_metres(150);
    Plan plan = small_site::home_runs(site);
    for (PlannedCable& cable : plan.cables) {
        cable.lengths.with_slack = Length::from_metres(100.4);
        cable.lengths.ordered = Length::from_metres(102);
    }
    CHECK(cable_order(site, plan).reels.size() == 2);
}

}  // namespace spadework
