#include "layout/duct_room.hpp"

#include <map>

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

using drawing::Dice;

constexpr int dug = 0;
constexpr int duct = 1;

Scenario site_with_duct(int room) {
    Scenario site = drawing::row_site(1, 50);
    site.segments[0].duct_room = room;
    return site;
}

PlannedCable cable_through(std::vector<Step> steps) {
    PlannedCable cable;
    cable.steps = std::move(steps);
    return cable;
}

std::map<Step, int> uses(const std::vector<PlannedCable>& cables) {
    std::map<Step, int> count;
    for (const PlannedCable& cable : cables) {
        for (const Step& step : cable.steps)
            ++count[step];
    }
    return count;
}

}  // namespace

TEST_CASE("cables up to the room of a duct stay in it, one more is laid beside it, and a note says so") {
    const Scenario site = site_with_duct(2);
    std::vector<PlannedCable> cables(2, cable_through({{0, duct}}));
    CHECK(respect_duct_room(site, cables).empty());
    CHECK(uses(cables)[{0, duct}] == 2);

    cables.assign(3, cable_through({{0, duct}}));
    const auto notes = respect_duct_room(site, cables);
    REQUIRE(notes.size() == 1);
    CHECK(notes[0].find("s0000") != std::string::npos);
    CHECK(cables[0].steps[0].way == duct);
    CHECK(cables[1].steps[0].way == duct);
    CHECK(cables[2].steps[0].way == dug);
}

TEST_CASE("ways over their room are named, ways at their room are not") {
    const Scenario site = site_with_duct(2);
    const std::vector<Step> through = {{0, duct}};
    CHECK(ways_over_room(site, {&through, &through}).empty());
    CHECK(ways_over_room(site, {&through, &through, &through}) == WithheldWays{{0, duct}});
    const std::vector<Step> beside = {{0, dug}};
    CHECK(ways_over_room(site, {&beside, &beside, &beside}).empty());
}

TEST_CASE("a cable without room takes the way that is cheapest then: an open trench before a new one") {
    Scenario site = site_with_duct(1);
    OpeningMethod plough = site.grounds[0].methods[0];
    plough.id = "plough";
    plough.plant_per_metre = UnitPrice::from_minor(1000);
    plough.duct_per_metre = UnitPrice::from_minor(300);
    site.grounds[0].methods.push_back(plough);
    const int plough_way = 1;
    const int duct_way = 2;
    SUBCASE("nothing is open: the plough, 50 m at 10 + 3, beats digging at 20") {
        std::vector<PlannedCable> cables(2, cable_through({{0, duct_way}}));
        respect_duct_room(site, cables);
        CHECK(cables[1].steps[0].way == plough_way);
    }
    SUBCASE("a dug trench is open: free for one more cable") {
        std::vector<PlannedCable> cables(2, cable_through({{0, duct_way}}));
        cables.push_back(cable_through({{0, dug}}));
        respect_duct_room(site, cables);
        CHECK(cables[1].steps[0].way == dug);
    }
    SUBCASE("a pole line serves too") {
        site.segments[0].pole_line = true;
        std::vector<PlannedCable> cables(2, cable_through({{0, duct_way}}));
        respect_duct_room(site, cables);
        CHECK(cables[1].steps[0].way == 3);
    }
}

TEST_CASE("no duct is ever over its room afterwards, and no cable leaves its segments") {
    Dice dice(41);
    for (int round = 0; round < 500; ++round) {
        Scenario site = drawing::row_site(5, 20);
        for (Segment& segment : site.segments) {
            if (!dice.one_in(3)) segment.duct_room = static_cast<int>(dice.between(1, 4));
        }
        std::vector<PlannedCable> cables;
        for (int c = 0; c < 6; ++c) {
            std::vector<Step> steps;
            const auto last = dice.between(1, 5);
            for (SegmentIndex s = 0; s < last; ++s) {
                const bool in_duct = site.segments[static_cast<std::size_t>(s)].duct_room && !dice.one_in(4);
                steps.push_back({s, in_duct ? duct : dug});
            }
            cables.push_back(cable_through(steps));
        }
        const auto before = cables;
        respect_duct_room(site, cables);
        for (const auto& [step, count] : uses(cables)) {
            const auto room = site.segments[static_cast<std::size_t>(step.segment)].duct_room;
            if (step.way == duct) CHECK(count <= *room);
        }
        for (std::size_t c = 0; c < cables.size(); ++c) {
            REQUIRE(cables[c].steps.size() == before[c].steps.size());
            for (std::size_t s = 0; s < cables[c].steps.size(); ++s)
                CHECK(cables[c].steps[s].segment == before[c].steps[s].segment);
        }
    }
}

}  // namespace spadework
