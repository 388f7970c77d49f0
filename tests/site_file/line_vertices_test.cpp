#include "site_file/line_vertices.hpp"

#include <doctest/doctest.h>

using namespace spadework;
using namespace spadework::site_file;

namespace {

LineFeature line(std::vector<Position> points, const std::string& ban = "") {
    LineFeature feature;
    feature.points = std::move(points);
    feature.ban = ban;
    return feature;
}

}  // namespace

TEST_CASE("points at the same coordinates are one vertex, wherever along the lines they are") {
    const auto vertices = vertices_of({line({{10, 50}, {10.001, 50}, {10.002, 50}}),
                                       line({{10.001, 50}, {10.001, 50.001}}), line({{10.00100004, 50}, {11, 50}})});
    CHECK(vertices.of_line[1][0] == vertices.of_line[0][1]);
    // 4 * 10^-8 degree is within 10^-7.
    CHECK(vertices.of_line[2][0] == vertices.of_line[0][1]);
    CHECK(vertices.uses[1] == 3);
    CHECK(vertices.at().size() == 5);
}

TEST_CASE("the 180th meridian is one place from both sides") {
    const auto vertices = vertices_of({line({{179.9, 0}, {180, 0}}), line({{-180, 0}, {-179.9, 0}})});
    CHECK(vertices.of_line[0][1] == vertices.of_line[1][0]);
}

TEST_CASE("lines that share a vertex hang together; banned lines join nothing") {
    const std::vector<LineFeature> lines = {line({{0, 0}, {0.001, 0}}), line({{0.001, 0}, {0.002, 0}}, "private"),
                                            line({{0.002, 0}, {0.003, 0}}), line({{0.0005, 1}, {0.001, 0}})};
    const auto parts = parts_of(lines, vertices_of(lines));
    CHECK(parts.of_line == std::vector<int>{0, -1, 1, 0});
    REQUIRE(parts.metres.size() == 2);
    CHECK(parts.metres[1] == doctest::Approx(111.319491));
}

TEST_CASE("lines that merely cross do not hang together") {
    const std::vector<LineFeature> lines = {line({{0, 0}, {0.002, 0}}), line({{0.001, -0.001}, {0.001, 0.001}})};
    CHECK(parts_of(lines, vertices_of(lines)).metres.size() == 2);
}
