#include "doubt/priced_plan.hpp"

#include <doctest/doctest.h>

#include "costing/bill.hpp"
#include "doubt/draws.hpp"
#include "doubt/quantile.hpp"
#include "doubt/support/open_sites.hpp"
#include "layout/design.hpp"
#include "layout/rerouting.hpp"
#include "study/study.hpp"

using namespace spadework;
using namespace spadework::testing;

namespace {

/// Every layout's plan of a site, priced at several draws of its ranges: by quantities and by its bill.
void check_against_bills(const site_file::LoadedSite& site) {
    const std::vector<UncertainValue>& values = site.varying->values();
    const std::vector<Driver> drivers = drivers_of(values);
    const Draws draws(static_cast<int>(drivers.size()), 16, 5);
    const std::vector<double> points = draws.between(0, 16);
    for (const LayoutKind kind : layouts_allowed(site.scenario->rules)) {
        const Design made = design(kind, *site.scenario, {.target_gap = 1});
        if (!made.plan) continue;
        const PricedPlan quantities(*site.scenario, *made.plan);
        CHECK(quantities.total(*site.scenario) == price(*site.scenario, *made.plan).total());
        for (std::size_t draw = 0; draw < 16; ++draw) {
            Scenario scenario = *site.scenario;
            site.varying->set(numbers_at(values, drivers, points.data() + draw * drivers.size()), scenario);
            CAPTURE(id_of(kind));
            CHECK(quantities.total(scenario) == price(scenario, *made.plan).total());
        }
    }
}

}  // namespace

TEST_CASE("a plan's quantities cost to the cent what its bill says, at any prices") {
    check_against_bills(open_lakeside());
    check_against_bills(lakeside({{"duct: 1.40}\n      - {id: plough", "duct: {low: 1, high: 2}}\n      - {id: plough"},
                                  {"price: 19", "price: {low: 12, high: 30}"},
                                  {"mobilisation: 600", "mobilisation: {low: 200, high: 900}"},
                                  {"test-minutes: 6", "test-minutes: {low: 3, high: 15}"},
                                  {"amount: 450", "amount: {low: 100, high: 900}"},
                                  {"install-hours: 2.0", "install-hours: {low: 1, high: 5}"}}));
}

TEST_CASE("so they do on a site with poles, old ducts, splices and lengths in feet") {
    for (const char* name : {"village.yaml", "campus.yaml"}) {
        CAPTURE(name);
        const site_file::LoadedSite site = shipped(name);
        for (const LayoutKind kind : layouts_allowed(site.scenario->rules)) {
            const Design made = design(kind, *site.scenario, {.target_gap = 1});
            if (!made.plan) continue;
            Scenario scenario = *site.scenario;
            const PricedPlan quantities(scenario, *made.plan);
            for (const double rate : {20.0, 37.77, 91.013}) {
                CHECK(
                    site.varying
                        ->set_keys({{"labour.installer-rate", rate}, {"labour.groundworks-rate", 1.7 * rate}}, scenario)
                        .empty());
                CHECK(quantities.total(scenario) == price(scenario, *made.plan).total());
            }
        }
    }
}

TEST_CASE("routes at other lengths cost what a plan along them costs") {
    const site_file::LoadedSite site = lakeside();
    for (const LayoutKind kind : {LayoutKind::home_runs, LayoutKind::trunk_one, LayoutKind::daisy_chain}) {
        const Design made = design(kind, *site.scenario, {.target_gap = 1});
        REQUIRE(made.plan);
        const RoutedLayout routes = routes_of(*made.plan);
        CHECK(total_of_routes(*site.scenario, routes) == price(*site.scenario, *made.plan).total());
        Scenario longer = *site.scenario;
        for (Segment& segment : longer.segments)
            segment.length = segment.length * 3;
        CHECK(*total_of_routes(longer, routes) > price(*site.scenario, *made.plan).total());
        for (Segment& segment : longer.segments)
            segment.length = segment.length * 1000;
        CHECK_FALSE(total_of_routes(longer, routes));
    }
}
