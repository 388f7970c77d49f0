#include "survey/dead_ends.hpp"

#include <doctest/doctest.h>

#include "support/drawn_things.hpp"
#include "survey/network_cleaning.hpp"
#include "survey/noding.hpp"

using namespace spadework;
using namespace spadework::survey;

namespace {

struct Joined {
    std::vector<DeadEndJoin> joins;
    std::size_t parts;
    double metres;
};

Joined join(std::vector<drawn_map::Feature> lines, double snap_metres) {
    const MapContents contents = contents_of_lines(std::move(lines));
    int vanished = 0;
    LineNetwork network = network_of(contents.ways, vanished);
    node_crossings(network, contents.ways, plane_here());
    Joined joined;
    joined.joins = join_dead_ends(network, contents.ways, plane_here(), snap_metres);
    const Parts parts = parts_of(network, contents.ways, true);
    joined.parts = parts.metres.size();
    joined.metres = 0;
    for (const double metres : parts.metres)
        joined.metres += metres;
    return joined;
}

const Tags path = {{"highway", "path"}};
const drawn_map::Feature street = line("street", {{0, 0}, {100, 0}}, path);

}  // namespace

TEST_CASE("a dead end below the snapping distance is led straight on, at it too, and beyond it is not") {
    const auto lines = std::vector{street, line("yard", {{40, 0.8}, {40, 30}}, path)};
    const Joined joined = join(lines, 1);
    REQUIRE(joined.joins.size() == 1);
    CHECK(joined.joins[0].metres == doctest::Approx(0.8).epsilon(0.01));
    CHECK(joined.parts == 1);
    CHECK(joined.metres == doctest::Approx(130).epsilon(0.001));
    CHECK(join(lines, 0.79).joins.empty());
    CHECK(join(lines, 0).parts == 2);
}

TEST_CASE("two dead ends that face each other are joined once") {
    const Joined joined = join({line("a", {{0, 0}, {40, 0}}, path), line("b", {{40.6, 0}, {80, 0}}, path)}, 1);
    CHECK(joined.joins.size() == 1);
    CHECK(joined.parts == 1);
}

TEST_CASE("an end that overshoots a line it crosses is not led back to it") {
    const Joined joined = join({street, line("yard", {{40, -0.4}, {40, 30}}, path)}, 1);
    CHECK(joined.joins.empty());
    CHECK(joined.parts == 1);
}

TEST_CASE("dead ends are not led to a barred line, nor up to a bridge, but a bridge's own end comes down") {
    const Tags motorway = {{"highway", "motorway"}};
    const Tags bridge = {{"highway", "path"}, {"bridge", "yes"}};
    const auto yard = line("yard", {{40, 0.8}, {40, 30}}, path);
    CHECK(join({line("street", {{0, 0}, {100, 0}}, motorway), yard}, 1).joins.empty());
    CHECK(join({line("street", {{0, 0}, {100, 0}}, bridge), yard}, 1).joins.empty());
    CHECK(join({street, line("yard", {{40, 0.8}, {40, 30}}, bridge)}, 1).joins.size() == 1);
}
