#include "survey/noding.hpp"

#include <doctest/doctest.h>

#include "support/drawn_things.hpp"
#include "survey/network_cleaning.hpp"

using namespace spadework;
using namespace spadework::survey;

namespace {

struct Noded {
    MapContents contents;
    LineNetwork network;
    Noding noding;
    std::size_t parts;
};

Noded node(std::vector<drawn_map::Feature> lines) {
    Noded noded{contents_of_lines(std::move(lines)), {}, {}, 0};
    int vanished = 0;
    noded.network = network_of(noded.contents.ways, vanished);
    noded.noding = node_crossings(noded.network, noded.contents.ways, plane_here());
    noded.parts = parts_of(noded.network, noded.contents.ways, true).metres.size();
    return noded;
}

const Tags path = {{"highway", "path"}};
const Tags bridge = {{"highway", "path"}, {"bridge", "yes"}};

}  // namespace

TEST_CASE("lines that share a vertex anywhere along them are one part, without any noding") {
    const Noded noded =
        node({line("a", {{0, 0}, {50, 0}, {100, 0}}, path), line("b", {{50, -50}, {50, 0}, {50, 50}}, path)});
    CHECK(noded.parts == 1);
    CHECK(noded.noding.joined.empty());
}

TEST_CASE("a crossing on one level is joined at a new vertex in both lines, and told of") {
    const Noded noded = node({line("a", {{0, 0}, {100, 0}}, path), line("b", {{50, -50}, {50, 50}}, path)});
    CHECK(noded.parts == 1);
    REQUIRE(noded.noding.joined.size() == 1);
    CHECK(noded.network.chains[0].vertices.size() == 3);
    CHECK(noded.network.chains[1].vertices.size() == 3);
    CHECK(noded.network.chains[0].vertices[1] == noded.network.chains[1].vertices[1]);
    const Position there = plane_here().to_plane(noded.noding.joined[0].at);
    CHECK(there.x == doctest::Approx(50).epsilon(0.001));
    CHECK(there.y == doctest::Approx(0).scale(1));
}

TEST_CASE("a line under a bridge, in a tunnel, on another layer or under cover stays apart, and is told of") {
    for (const Tags& other :
         {bridge, Tags{{"highway", "path"}, {"tunnel", "yes"}}, Tags{{"highway", "path"}, {"layer", "2"}},
          Tags{{"highway", "path"}, {"covered", "yes"}}}) {
        const Noded noded = node({line("a", {{0, 0}, {100, 0}}, path), line("b", {{50, -50}, {50, 50}}, other)});
        CHECK(noded.parts == 2);
        CHECK(noded.noding.joined.empty());
        CHECK(noded.noding.apart.size() == 1);
    }
}

TEST_CASE("two bridges on the same layer that cross are joined, and a bridge meets what it shares a vertex with") {
    CHECK(node({line("a", {{0, 0}, {100, 0}}, bridge), line("b", {{50, -50}, {50, 50}}, bridge)}).parts == 1);
    const Noded noded = node({line("a", {{0, 0}, {100, 0}}, path), line("b", {{100, 0}, {150, 0}}, bridge)});
    CHECK(noded.parts == 1);
    CHECK(noded.noding.apart.empty());
}

TEST_CASE("a line that ends on another without a vertex there is joined") {
    const Noded noded = node({line("a", {{0, 0}, {100, 0}}, path), line("b", {{40, 0}, {40, 30}}, path)});
    CHECK(noded.parts == 1);
    CHECK(noded.noding.joined.size() == 1);
}

TEST_CASE("a line that crosses itself, and one that crosses many, are joined at every crossing") {
    const Noded loop = node({line("a", {{0, 0}, {100, 0}, {100, 50}, {50, 50}, {50, -50}}, path)});
    CHECK(loop.noding.joined.size() == 1);
    std::vector<drawn_map::Feature> lines = {line("long", {{-10, 1}, {210, 2}}, path)};
    for (int i = 0; i < 20; ++i)
        lines.push_back(line("rung " + std::to_string(i), {{i * 10.0, -20}, {i * 10.0 + 3, 20}}, path));
    const Noded ladder = node(std::move(lines));
    CHECK(ladder.noding.joined.size() == 20);
    CHECK(ladder.parts == 1);
}

TEST_CASE("lines that run over each other become the same edges") {
    Noded noded = node({line("a", {{0, 0}, {100, 0}}, path), line("b", {{30, 0}, {60, 0}, {60, 40}}, path)});
    CHECK(noded.parts == 1);
    const Repeated repeated = drop_repeated_edges(noded.network, noded.contents);
    CHECK(repeated.pieces == 1);
    CHECK(repeated.metres == doctest::Approx(30).epsilon(0.001));
}

TEST_CASE("vertices within two centimetres of each other become one") {
    const Noded noded = node({line("a", {{0, 0}, {50, 0}, {100, 3}}, path), line("b", {{50.015, 0}, {50, 30}}, path)});
    CHECK(noded.parts == 1);
}
