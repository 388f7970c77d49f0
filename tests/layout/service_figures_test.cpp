#include "layout/service_figures.hpp"

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

ServiceFigures figures_of(const Scenario& site) {
    const Network network = network_of(site);
    return service_figures(site, network.scale, shortest_ways(network, site.hub.place));
}

}  // namespace

TEST_CASE("every building's cable has the price of the smallest cable that holds its strands") {
    Scenario site = drawing::row_site(2, 100);
    site.buildings[1].links = {{BitRate::from_megabits(1000), 3}};
    const ServiceFigures figures = figures_of(site);
    REQUIRE(figures.impossible.empty());
    const CostScale scale = network_of(site).scale;
    CHECK(figures.cables[0].weight == scale.units_per_millimetre(UnitPrice::from_minor(60)));
    CHECK(figures.cables[1].weight == scale.units_per_millimetre(UnitPrice::from_minor(100)));
    CHECK(figures.cables[0].multiplicity == 1);
}

TEST_CASE("what makes a layout impossible is said: no way, no optic, no gear, no cable, no hub") {
    Scenario site = drawing::row_site(2, 100);
    SUBCASE("no way") {
        site.segments[1].ban = "private";
        CHECK(figures_of(site).impossible == "building b001: no way to the hub without banned segments");
    }
    SUBCASE("no optic that far") {
        for (OpticProduct& optic : site.catalogue.optics)
            optic.reach = Length::from_metres(150);
        CHECK(figures_of(site).impossible.find("building b001: 0.200 km") == 0);
    }
    SUBCASE("no gear") {
        site.catalogue.building_gear.clear();
        CHECK(figures_of(site).impossible.find("building b000: no gear") == 0);
    }
    SUBCASE("no cable") {
        site.catalogue.cables.clear();
        CHECK(figures_of(site).impossible == "the catalogue has no cable");
    }
    SUBCASE("no hub switch") {
        site.catalogue.hub_gear.clear();
        CHECK(figures_of(site).impossible.find("hub: ") == 0);
    }
}

TEST_CASE("trunk sizes step up where the cable or the enclosure does") {
    Scenario site = drawing::bare_site();
    const auto sizes = trunk_sizes(site, CostScale{}, 24);
    // Cables of 4, 12 and 24 strands, enclosures of 12 and 48 adapters.
    REQUIRE(sizes.size() == 3);
    CHECK(sizes[0].units == 4);
    CHECK(sizes[1].units == 12);
    CHECK(sizes[2].units == 24);
    CHECK(sizes[0].weight < sizes[1].weight);
    CHECK(sizes[1].fixed < sizes[2].fixed);
    site.rules.spare.trunk_spare_least = 2;
    const auto with_spares = trunk_sizes(site, CostScale{}, 22);
    REQUIRE(with_spares.size() == 3);
    CHECK(with_spares[0].units == 2);
    CHECK(with_spares[1].units == 10);
}

TEST_CASE("trunk sizes end where the catalogue has no enclosure for so many strands") {
    Scenario site = drawing::bare_site();
    site.catalogue.enclosures.clear();
    CHECK(trunk_sizes(site, CostScale{}, 8).empty());
}

}  // namespace spadework
