#include "layout/nearest_plan.hpp"

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {

TEST_CASE("the nearest plan of each layout lays every building's cable and lights every link, whatever falls short") {
    Scenario site = small_site::site();
    site.catalogue.optics[0].reach = small_site::metres(1);
    site.catalogue.hub_gear.clear();
    site.places[static_cast<std::size_t>(small_site::gate)].enclosure_allowed = true;
    for (const LayoutKind layout : {LayoutKind::home_runs, LayoutKind::trunk_one, LayoutKind::trunk, LayoutKind::mixed,
                                    LayoutKind::daisy_chain, LayoutKind::ring}) {
        CAPTURE(id_of(layout));
        const auto plan = nearest_plan(layout, site);
        REQUIRE(plan);
        CHECK(plan->layout == layout);
        CHECK(plan->building_gear.size() == 2);
        CHECK(plan->links.size() >= 2);
        CHECK(plan->hub_gear.empty());
    }
}

TEST_CASE("trunks of the nearest plan lead to the place with the shortest cables in all, chains follow the distance") {
    const Scenario site = small_site::site();
    const auto trunk = nearest_plan(LayoutKind::trunk_one, site);
    REQUIRE(trunk);
    REQUIRE(trunk->enclosures.size() == 1);
    CHECK(site.places[static_cast<std::size_t>(trunk->enclosures[0].place)].id == "gate");
    const auto chain = nearest_plan(LayoutKind::daisy_chain, site);
    REQUIRE(chain);
    // The barn is 130 m away, the mill 150 m.
    CHECK(chain->chains == std::vector<std::vector<BuildingIndex>>{{small_site::barn, small_site::mill}});
}

TEST_CASE("there is no nearest plan where a building has no way to the hub, or the catalogue no cable") {
    Scenario cut_off = small_site::site();
    cut_off.segments[small_site::path].ban = "flooded";
    CHECK_FALSE(nearest_plan(LayoutKind::home_runs, cut_off));
    Scenario bare = small_site::site();
    bare.catalogue.cables.clear();
    CHECK_FALSE(nearest_plan(LayoutKind::home_runs, bare));
}

}  // namespace spadework
