#include "geometry/vertex_grid.hpp"

#include <doctest/doctest.h>

using spadework::junction_name;
using spadework::Position;
using spadework::rounded_degrees;
using spadework::VertexGrid;

TEST_CASE("points that differ by less than half a cell are one vertex, and others are not") {
    VertexGrid grid;
    CHECK(grid.vertex_at({11.5, 50.0}) == 0);
    CHECK(grid.vertex_at({11.50000004, 50.0}) == 0);
    CHECK(grid.vertex_at({11.5000001, 50.0}) == 1);
    CHECK(grid.vertex_at({11.5, 49.9999999}) == 2);
    CHECK(grid.at().size() == 3);
    CHECK(grid.at()[0] == Position{11.5, 50.0});
}

TEST_CASE("the 180th meridian is one line, whichever side it is written from") {
    VertexGrid grid;
    CHECK(grid.vertex_at({180.0, 10.0}) == grid.vertex_at({-180.0, 10.0}));
    CHECK(grid.vertex_at({179.0, 10.0}) != grid.vertex_at({-179.0, 10.0}));
}

TEST_CASE("a junction is named by its longitude and latitude with seven digits") {
    CHECK(junction_name({-77.160263, 39.101741}) == "-77.1602630,39.1017410");
    CHECK(junction_name(rounded_degrees({0.00000014, 1.0})) == "0.0000001,1.0000000");
}
