#include "site_file/edge_search.hpp"

#include <algorithm>
#include <random>

#include <doctest/doctest.h>

using namespace spadework;
using namespace spadework::site_file;

TEST_CASE("the nearest edge is that of trying every edge and every side of the outline") {
    std::mt19937 random(9);
    std::uniform_real_distribution<double> degree(0, 0.01);
    std::uniform_real_distribution<double> small(-0.0004, 0.0004);
    for (int round = 0; round < 30; ++round) {
        std::vector<LineFeature> lines(40);
        std::vector<int> part_of_line;
        for (LineFeature& line : lines) {
            for (int i = 0; i < 4; ++i)
                line.points.push_back({10 + degree(random), 50 + degree(random)});
            part_of_line.push_back(static_cast<int>(random() % 2));
        }
        SpotFeature spot;
        const Position middle{10 + degree(random), 50 + degree(random)};
        spot.rings = {{}};
        for (int i = 0; i < 3; ++i)
            spot.rings[0].push_back({middle.x + small(random), middle.y + small(random)});
        const LocalPlane plane(CoordinateSystem::wgs84_degrees, spot.rings[0]);
        double least = 1e9;
        for (std::size_t line = 0; line < lines.size(); ++line) {
            if (part_of_line[line] != 1) continue;
            for (std::size_t i = 0; i + 1 < 4; ++i) {
                const Stretch edge{plane.to_plane(lines[line].points[i]), plane.to_plane(lines[line].points[i + 1])};
                for (const Stretch& side : sides_on_plane(spot, plane))
                    least = std::min(least, nearest_points(edge, side).metres);
            }
        }
        const auto found = EdgeSearch(lines, part_of_line, 1, plane).nearest(spot);
        REQUIRE(found.has_value());
        CHECK(found->metres == doctest::Approx(least));
        CHECK(part_of_line[found->line] == 1);
    }
}

TEST_CASE("there is nothing near where there are no edges") {
    SpotFeature spot;
    spot.rings = {{{10, 50}}};
    const LocalPlane plane(CoordinateSystem::wgs84_degrees, {{10, 50}});
    CHECK_FALSE(EdgeSearch({}, {}, 0, plane).nearest(spot).has_value());
}
