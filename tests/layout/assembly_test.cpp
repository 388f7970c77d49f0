#include "layout/assembly.hpp"

#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

/// hub -s0- p1 -s1- p2 (handhole) -s2- p3, buildings b000 at p1 and b001 at p3.
Scenario handhole_row() {
    Scenario site = drawing::bare_site();
    const PlaceIndex p1 = drawing::add_place(site);
    const PlaceIndex p2 = drawing::add_place(site, PlaceKind::handhole);
    const PlaceIndex p3 = drawing::add_place(site);
    drawing::add_segment(site, 0, p1, 100);
    drawing::add_segment(site, p2, p1, 50);  // Drawn against the way the cables run.
    drawing::add_segment(site, p2, p3, 30);
    drawing::add_building(site, p1);
    drawing::add_building(site, p3);
    return site;
}

RoutedLayout home_runs_of(const Scenario&) {
    RoutedLayout routed;
    routed.kind = LayoutKind::home_runs;
    routed.buildings = {{0, -1, {0, 1, {{0, 0}}}}, {1, -1, {0, 3, {{0, 0}, {1, 0}, {2, 0}}}}};
    return routed;
}

/// An enclosure at the handhole serves both buildings.
RoutedLayout trunk_of() {
    RoutedLayout routed;
    routed.kind = LayoutKind::trunk;
    routed.enclosures = {{2, {0, 2, {{0, 0}, {1, 0}}}}};
    routed.buildings = {{0, 0, {2, 1, {{1, 0}}}}, {1, 0, {2, 3, {{2, 0}}}}};
    return routed;
}

RoutedLayout chain_of() {
    RoutedLayout routed;
    routed.kind = LayoutKind::daisy_chain;
    routed.buildings = {{0, -1, {0, 1, {{0, 0}}}}, {1, -1, {1, 3, {{1, 0}, {2, 0}}}}};
    routed.chains = {{0, 1}};
    return routed;
}

}  // namespace

TEST_CASE("home runs: each segment is opened once, each building has a cable of its own and its links") {
    const Scenario site = handhole_row();
    const Assembly assembly = assemble(site, home_runs_of(site));
    REQUIRE(assembly.plan);
    const Plan& plan = *assembly.plan;
    CHECK(plan.trenches == std::vector<Step>{{0, 0}, {1, 0}, {2, 0}});
    REQUIRE(plan.cables.size() == 2);
    CHECK(plan.cables[0].id == "run-b000");
    CHECK(plan.cables[1].role == CableRole::home_run);
    CHECK(plan.cables[1].lengths.route == Length::from_metres(180));
    REQUIRE(plan.links.size() == 2);
    CHECK(plan.links[1].cables == std::vector<int>{1});
    CHECK(plan.links[1].mated_pairs == 2);
    CHECK(plan.links[1].glass == plan.cables[1].lengths.ordered);  // nobody cuts a factory-made cable
    CHECK(plan.hub_ports == 2);
    CHECK(plan.enclosures.empty());
}

TEST_CASE("cable that is spliced has the glass that it is cut to") {
    Scenario site = handhole_row();
    site.rules.termination = Termination::spliced;
    const Assembly assembly = assemble(site, home_runs_of(site));
    REQUIRE(assembly.plan);
    CHECK(assembly.plan->links[1].glass == assembly.plan->cables[1].lengths.with_slack);
}

TEST_CASE("where no product will do, the nearest plan has the optic that falls short and no gear at the hub") {
    Scenario site = handhole_row();
    for (OpticProduct& optic : site.catalogue.optics)
        optic.reach = Length::from_metres(10);
    site.catalogue.hub_gear.clear();
    const Assembly assembly = assemble(site, home_runs_of(site));
    CHECK_FALSE(assembly.plan);
    CHECK(assembly.reason.find("beyond the longest reach of 0.010 km") != std::string::npos);
    REQUIRE(assembly.nearest);
    CHECK(assembly.nearest->links.size() == 2);
    CHECK(assembly.nearest->hub_gear.empty());
    CHECK(assembly.nearest->hub_ports == 2);
}

TEST_CASE("a cable coils in the handholes it passes, not in the one where it ends") {
    Scenario site = handhole_row();
    site.rules.slack.coil_per_handhole = Length::from_metres(10);
    const Plan runs = *assemble(site, home_runs_of(site)).plan;
    CHECK(runs.cables[0].lengths.with_slack == Length::from_metres(100));
    CHECK(runs.cables[1].lengths.with_slack == Length::from_metres(190));
    const Plan trunk = *assemble(site, trunk_of()).plan;
    CHECK(trunk.cables[0].lengths.with_slack == Length::from_metres(150));
    CHECK(trunk.cables[1].lengths.with_slack == Length::from_metres(50));
}

TEST_CASE("trunk: the trunk holds all links with spares and headroom, and every link passes it and its drop") {
    Scenario site = handhole_row();
    site.buildings[1].links = {{BitRate::from_megabits(1000), 2}};
    site.rules.spare.trunk_spare = Percent::from_percent(25);
    site.growth.headroom = Percent::from_percent(50);
    const Assembly assembly = assemble(site, trunk_of());
    REQUIRE(assembly.plan);
    const Plan& plan = *assembly.plan;
    CHECK(plan.cables[0].id == "trunk-p0002");
    CHECK(plan.cables[0].need.in_use == 6);
    CHECK(plan.cables[0].need.spare == 2);     // A quarter of six, rounded up.
    CHECK(plan.cables[0].need.headroom == 3);  // Half of six.
    CHECK(site.catalogue.cables[static_cast<std::size_t>(plan.cables[0].product)].strands == 12);
    REQUIRE(plan.enclosures.size() == 1);
    CHECK(plan.enclosures[0].serves == std::vector<BuildingIndex>{0, 1});
    REQUIRE(plan.enclosures[0].products.size() == 1);
    CHECK(plan.enclosures[0].products[0].count == 1);
    REQUIRE(plan.links.size() == 3);
    CHECK(plan.links[0].cables == std::vector<int>{0, 1});
    CHECK(plan.links[0].mated_pairs == 3);
    CHECK(plan.links[2].cables == std::vector<int>{0, 2});
    CHECK(plan.hub_ports == 3);
}

TEST_CASE("spliced ends count two splices a cable of the link") {
    Scenario site = handhole_row();
    site.rules.termination = Termination::spliced;
    CHECK(assemble(site, home_runs_of(site)).plan->links[0].splices == 2);
    CHECK(assemble(site, trunk_of()).plan->links[0].splices == 4);
    // 100 m of cable in lengths of 40 m: two joints more.
    for (CableProduct& cable : site.catalogue.cables)
        cable.longest = Length::from_metres(40);
    CHECK(assemble(site, home_runs_of(site)).plan->links[0].splices == 4);
}

TEST_CASE("daisy chain: hops from building to building, through gear with twice the optic ports") {
    const Scenario site = handhole_row();
    const Assembly assembly = assemble(site, chain_of());
    REQUIRE(assembly.plan);
    const Plan& plan = *assembly.plan;
    CHECK(plan.cables[1].role == CableRole::hop);
    CHECK(plan.cables[1].from == 1);
    CHECK_FALSE(plan.links[0].from);
    CHECK(plan.links[1].from == 0);
    CHECK(plan.hub_ports == 1);
    const auto& gear = site.catalogue.building_gear;
    CHECK(gear[static_cast<std::size_t>(plan.building_gear[0].pieces.product)].id == "switch-8");
    CHECK(gear[static_cast<std::size_t>(plan.building_gear[1].pieces.product)].id == "converter");
    CHECK(plan.chains == std::vector<std::vector<BuildingIndex>>{{0, 1}});
}

TEST_CASE("ring: a chain with a cable back, links on both sides of every building and two ports a ring at the hub") {
    const Scenario site = handhole_row();
    RoutedLayout routed = chain_of();
    routed.kind = LayoutKind::ring;
    const PlaceIndex last = site.buildings[1].place;
    routed.closings = {{0, last, {{0, 0}, {1, 0}, {2, 0}}}};
    const Assembly assembly = assemble(site, routed);
    REQUIRE_MESSAGE(assembly.plan, assembly.reason);
    const Plan& plan = *assembly.plan;
    REQUIRE(plan.cables.size() == 3);
    CHECK(plan.cables[2].role == CableRole::closing);
    CHECK(plan.cables[2].id == "closing-" + site.buildings[1].id);
    CHECK(plan.cables[2].from == 0);
    CHECK(plan.cables[2].to == last);
    CHECK(plan.cables[2].building == 1);
    REQUIRE(plan.links.size() == 3);
    CHECK(plan.links[1].from == 0);
    CHECK_FALSE(plan.links[2].from);
    CHECK(plan.links[2].building == 1);
    CHECK(plan.links[2].number == 2);
    CHECK(plan.hub_ports == 2);
    const auto& gear = site.catalogue.building_gear;
    for (const PlannedGear& station : plan.building_gear)
        CHECK(gear[static_cast<std::size_t>(station.pieces.product)].id == "switch-8");
    REQUIRE(assembly.notes.size() == 1);
    CHECK(assembly.notes[0].find("takes 2 buildings down") != std::string::npos);
}

TEST_CASE("the reason for no plan names what cannot be done") {
    Scenario site = handhole_row();
    SUBCASE("no cable") {
        site.catalogue.cables.clear();
        CHECK(assemble(site, home_runs_of(site)).reason ==
              "the catalogue has no cable that holds the 2 strands of run-b000");
    }
    SUBCASE("no optic that far") {
        for (OpticProduct& optic : site.catalogue.optics)
            optic.reach = Length::from_metres(150);
        const Assembly assembly = assemble(site, home_runs_of(site));
        CHECK_FALSE(assembly.plan);
        CHECK(assembly.reason.find("building b001: 0.180 km of glass") == 0);
    }
    SUBCASE("no enclosure") {
        site.catalogue.enclosures.clear();
        CHECK(assemble(site, trunk_of()).reason == "the catalogue has no enclosure for the 4 strands at p0002");
    }
    SUBCASE("no switch at the hub") {
        site.catalogue.hub_gear.clear();
        CHECK(assemble(site, home_runs_of(site)).reason.find("hub: ") == 0);
    }
    SUBCASE("no gear that passes the light on") {
        site.catalogue.building_gear.resize(1);
        CHECK(assemble(site, chain_of()).reason.find("building b000: no gear") == 0);
    }
}

TEST_CASE("a route whose strands need several cables lays them side by side under ids of their own") {
    Scenario site = handhole_row();
    site.catalogue.cables = {drawing::cable(4, 60)};
    site.buildings[1].links = {{BitRate::from_megabits(1000), 5}};
    const Assembly assembly = assemble(site, home_runs_of(site));
    REQUIRE(assembly.plan);
    std::set<std::string> ids;
    for (const PlannedCable& cable : assembly.plan->cables)
        ids.insert(cable.id);
    CHECK(ids == std::set<std::string>{"run-b000", "run-b001", "run-b001-2", "run-b001-3"});
    CHECK(assembly.plan->links.size() == 6);
}

TEST_CASE("what differs between plans counts trenches once and cables each") {
    Scenario site = handhole_row();
    const Plan plan = *assemble(site, home_runs_of(site)).plan;
    const Money all = cost_to_build(site, plan);
    Plan without_cable = plan;
    without_cable.cables.pop_back();
    // 180 m at 0.60, two factory ends at 12.00, two ends of two strands at 5 minutes and 36.00 an hour.
    CHECK((all - cost_to_build(site, without_cable)).minor() == 180 * 60 + 2400 + 2 * 600);
    Plan without_trench = plan;
    without_trench.trenches.erase(without_trench.trenches.begin());
    CHECK((all - cost_to_build(site, without_trench)).minor() == 100 * 2000);
}

}  // namespace spadework
