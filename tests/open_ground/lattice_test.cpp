#include "open_ground/lattice.hpp"

#include <cmath>
#include <numbers>

#include <doctest/doctest.h>

#include "open_ground/support/lawn_site.hpp"

using namespace spadework;
using namespace spadework::open_ground;
using namespace spadework::lawn_site;

namespace {

/// A square lawn of 40 m with a lattice of 1 m and nothing else.
Scenario lattice_of_lawn(int directions) {
    Scenario site = bare();
    add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 40, 40)});
    const GroundMap ground(site);
    MapSheet sheet(site, ground);
    const Lattice lattice(sheet, Length::from_metres(1), directions);
    return site;
}

/// The worst way over the lattice from its south-west corner against the straight line, as a share.
double worst_detour(const Scenario& site) {
    double worst = 0;
    for (int east = 0; east <= 40; east += 4) {
        for (int north = 0; north <= 40; north += 4) {
            if (east + north == 0) continue;
            const std::string to = "lawn " + std::to_string(east + 1) + "," + std::to_string(north + 1);
            const double straight = std::hypot(east, north);
            const auto metres = [](const Segment& segment) {
                return std::hypot(segment.polyline[1].x - segment.polyline[0].x,
                                  segment.polyline[1].y - segment.polyline[0].y);
            };
            worst = std::max(worst, least(site, place(site, "lawn 1,1"), place(site, to), metres) / straight - 1);
        }
    }
    return worst;
}

}  // namespace

TEST_CASE("a point has as many ways as directions, one of each two opposite ones listed") {
    CHECK(grid_steps(8).size() == 4);
    CHECK(grid_steps(16).size() == 8);
    CHECK(grid_steps(32).size() == 16);
}

TEST_CASE("the longest detour is 8.24 % with 8 directions, 2.75 % with 16 and 1.31 % with 32") {
    CHECK(longest_detour(8) == doctest::Approx(1 / std::cos(std::numbers::pi / 8) - 1));
    CHECK(longest_detour(8) == doctest::Approx(0.0824).epsilon(0.001));
    CHECK(longest_detour(16) == doctest::Approx(1 / std::cos(std::atan(0.5) / 2) - 1));
    CHECK(longest_detour(16) == doctest::Approx(0.0275).epsilon(0.001));
    CHECK(longest_detour(32) == doctest::Approx(0.0131).epsilon(0.01));
}

TEST_CASE(
    "ways over a lattice of a lawn are never longer than the stated detour, and nearly as long in the worst case") {
    for (const int directions : {8, 16, 32}) {
        CAPTURE(directions);
        const double worst = worst_detour(lattice_of_lawn(directions));
        CHECK(worst <= longest_detour(directions) + 1e-9);
        CHECK(worst >= 0.9 * longest_detour(directions));
    }
}

TEST_CASE("lattice points are named by column and row from the south-west, and no enclosure may stand there") {
    const Scenario site = lattice_of_lawn(16);
    CHECK(site.places.size() == 41 * 41);
    const PlaceIndex point = place(site, "lawn 4,6");
    REQUIRE(point >= 0);
    const Place& at = site.places[static_cast<std::size_t>(point)];
    CHECK(at.at == Position{3, 5});
    CHECK(at.laid_out);
    CHECK_FALSE(at.enclosure_allowed);
}

TEST_CASE("without a rule the spacing is a plain figure that gives at most 1000 points, and at least 1 m") {
    Scenario site = bare();
    add_area(site, "lawn", AreaUse::open_ground, {box(0, 0, 400, 300)});
    CHECK(spacing_of(site, GroundMap(site)) == Length::from_metres(15));
    CHECK(expected_points(site, GroundMap(site)) == doctest::Approx(120000.0 / 225));
    site.areas[0].rings = {box(0, 0, 10, 10)};
    CHECK(spacing_of(site, GroundMap(site)) == Length::from_metres(1));
    site.rules.open_ground.spacing = Length::from_metres(2.5);
    CHECK(spacing_of(site, GroundMap(site)) == Length::from_metres(2.5));
}
