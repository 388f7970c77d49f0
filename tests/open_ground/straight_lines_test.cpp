#include "open_ground/straight_lines.hpp"

#include <doctest/doctest.h>

#include "open_ground/open_ground.hpp"
#include "open_ground/support/lawn_site.hpp"

using namespace spadework;
using namespace spadework::open_ground;
using namespace spadework::lawn_site;

namespace {

/// A lawn of 100 by 100 with points every 10 m, a hub at its west and a building at its east.
Scenario lawn(bool with_pond) {
    Scenario site = bare();
    site.hub.place = add_place(site, "hub", PlaceKind::hub, 0, 50);
    add_place(site, "mill", PlaceKind::building, 100, 50);
    add_segment(site, "round", 0, 1, paving, {{-100, -100}});
    add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 100, 100)});
    if (with_pond) add_area(site, "pond", AreaUse::obstacle, {box(25, 5, 35, 15)});
    site.rules.open_ground.spacing = Length::from_metres(10);
    return opened(site);
}

SegmentIndex segment(const Scenario& site, const std::string& id) {
    const Segment* found = find_segment(site, id);
    REQUIRE_MESSAGE(found != nullptr, id);
    return static_cast<SegmentIndex>(found - site.segments.data());
}

std::string ends(const Scenario& site, const StraightLine& line) {
    return site.places[static_cast<std::size_t>(line.from)].id + " to " +
           site.places[static_cast<std::size_t>(line.to)].id;
}

}  // namespace

TEST_CASE("a bent way over the lattice is straightened from end to end") {
    const Scenario site = lawn(false);
    const auto lines = straight_lines(site, {segment(site, "lawn 2,1 - lawn 3,1"), segment(site, "lawn 3,1 - lawn 5,2"),
                                             segment(site, "lawn 5,2 - lawn 6,3")});
    REQUIRE(lines.size() == 1);
    CHECK(ends(site, lines[0]) == "lawn 2,1 to lawn 6,3");
    const Scenario with = with_straight_lines(site, lines);
    const Segment* line = find_segment(with, "straight line 1 in lawn");
    REQUIRE(line != nullptr);
    CHECK(line->length == Length::from_metres(44.721));
    CHECK(line->ground == grass);
    REQUIRE(with.open_ground.straight.size() == 1);
    CHECK(with.open_ground.straight[0].like == "lawn 2,1 - lawn 3,1");
    CHECK(with.segments.size() == site.segments.size() + 1);
}

TEST_CASE("a line that would enter an obstacle is not drawn; the way is straightened as far as can be seen") {
    const Scenario site = lawn(true);
    const auto lines = straight_lines(site, {segment(site, "lawn 2,2 - lawn 3,3"), segment(site, "lawn 3,3 - lawn 4,3"),
                                             segment(site, "lawn 4,3 - lawn 5,3"), segment(site, "lawn 5,2 - lawn 5,3"),
                                             segment(site, "lawn 5,2 - lawn 6,2")});
    for (const StraightLine& line : lines)
        CHECK(ends(site, line) != "lawn 2,2 to lawn 6,2");
    CHECK_FALSE(lines.empty());
}

TEST_CASE("ends that meet in a branch are joined past it") {
    const Scenario site = lawn(false);
    const auto lines = straight_lines(site, {segment(site, "lawn 2,2 - lawn 3,3"), segment(site, "lawn 3,3 - lawn 5,4"),
                                             segment(site, "lawn 3,3 - lawn 3,4")});
    std::vector<std::string> found;
    for (const StraightLine& line : lines)
        found.push_back(ends(site, line));
    CHECK(std::find(found.begin(), found.end(), "lawn 2,2 to lawn 5,4") != found.end());
}

TEST_CASE("lines that the map has already are left out, and so are ways that are straight") {
    const Scenario site = lawn(false);
    CHECK(straight_lines(site, {segment(site, "hub - mill")}).empty());
    CHECK(straight_lines(site, {}).empty());
}
