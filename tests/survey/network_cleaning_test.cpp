#include "survey/network_cleaning.hpp"

#include <doctest/doctest.h>

#include "support/drawn_things.hpp"

using namespace spadework;
using namespace spadework::survey;

TEST_CASE("of a piece drawn twice the one whose surface is stated stays, and both lines keep the rest") {
    const MapContents contents =
        contents_of_lines({line("a", {{0, 0}, {50, 0}, {100, 0}}, {{"highway", "path"}}),
                           line("b", {{50, 0}, {100, 0}, {100, 50}}, {{"highway", "path"}, {"surface", "grass"}})});
    int vanished = 0;
    LineNetwork network = network_of(contents.ways, vanished);
    const Repeated repeated = drop_repeated_edges(network, contents);
    CHECK(vanished == 0);
    CHECK(repeated.pieces == 1);
    CHECK(repeated.metres == doctest::Approx(50).epsilon(0.001));
    REQUIRE(network.chains.size() == 2);
    CHECK(network.chains[0].vertices.size() == 2);
    CHECK(network.chains[1].vertices.size() == 3);
}

TEST_CASE("a line drawn back over itself is there once") {
    const MapContents contents = contents_of_lines({line("a", {{0, 0}, {50, 0}, {0, 0}}, {})});
    int vanished = 0;
    LineNetwork network = network_of(contents.ways, vanished);
    CHECK(drop_repeated_edges(network, contents).pieces == 1);
    CHECK(network.chains.size() == 1);
}

TEST_CASE("steps without length vanish and are counted") {
    MapContents contents = contents_of_lines({line("a", {{0, 0}, {50, 0}, {50.001, 0}, {80, 0}}, {})});
    int vanished = 0;
    const LineNetwork network = network_of(contents.ways, vanished);
    CHECK(vanished == 1);
    CHECK(network.chains[0].vertices.size() == 3);
}

TEST_CASE("barred lines join nothing unless they are asked for") {
    const MapContents contents =
        contents_of_lines({line("a", {{0, 0}, {50, 0}}, {}), line("b", {{50, 0}, {90, 0}}, {{"highway", "motorway"}}),
                           line("c", {{90, 0}, {120, 0}}, {})});
    int vanished = 0;
    const LineNetwork network = network_of(contents.ways, vanished);
    CHECK(parts_of(network, contents.ways, false).metres.size() == 2);
    CHECK(parts_of(network, contents.ways, false).of_chain[1] == -1);
    CHECK(parts_of(network, contents.ways, true).metres.size() == 1);
}
