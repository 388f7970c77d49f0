#include "drawn_map/osm_rings.hpp"

#include <doctest/doctest.h>

using namespace spadework;
using namespace spadework::drawn_map;

TEST_CASE("ways are joined into rings at the ends they share") {
    const JoinedWays joined = join_ways({{1, 2, 3}, {5, 4, 3}, {5, 1}, {7, 8, 9, 7}, {20, 21}});
    CHECK(joined.rings == std::vector<NodeIds>{{1, 2, 3, 4, 5, 1}, {7, 8, 9, 7}});
    CHECK(joined.open == std::vector<NodeIds>{{20, 21}});
}

TEST_CASE("ways without ends are no rings") {
    const JoinedWays joined = join_ways({{}, {4}});
    CHECK(joined.rings.empty());
    CHECK(joined.open.empty());
}

TEST_CASE("two rings that share a node stay two where each closes by itself") {
    const JoinedWays joined = join_ways({{1, 2, 3, 1}, {1, 4, 5, 1}});
    CHECK(joined.rings.size() == 2);
}

TEST_CASE("many ways that end at one node are joined in no time") {
    std::vector<NodeIds> ways;
    for (int i = 0; i < 50'000; ++i)
        ways.push_back({i + 1, 0});
    const JoinedWays joined = join_ways(ways);
    CHECK(joined.rings.empty());
    CHECK(joined.open.size() == 25'000);
}

TEST_CASE("a hole goes to the smallest ring around it") {
    const std::vector<Position> wide = {{0, 0}, {9, 0}, {9, 9}, {0, 9}};
    const std::vector<Position> narrow = {{1, 1}, {5, 1}, {5, 5}, {1, 5}};
    const std::vector<Position> hole = {{1, 1}, {2, 2}, {1, 2}};  // Touches the narrow ring at a corner.
    const std::vector<Position> stray = {{20, 20}, {21, 20}, {21, 21}};
    const auto [areas, strays] = assign_holes({wide, narrow}, {hole, stray});
    REQUIRE(areas.size() == 2);
    CHECK(areas[0].size() == 1);
    CHECK(areas[1] == RingWithHoles{narrow, hole});
    CHECK(strays == 1);
}
