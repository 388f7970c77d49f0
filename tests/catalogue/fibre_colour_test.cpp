#include "catalogue/fibre_colour.hpp"

#include <set>

#include <doctest/doctest.h>

using namespace spadework;

namespace {

std::string shown(int number, int per_tube, const ColourOrder& order) {
    const StrandColour colour = strand_colour(number, per_tube, order);
    return colour.tube + "/" + colour.strand;
}

}  // namespace

TEST_CASE("strands and tubes are coloured in the order of TIA-598-C (COL-1, COL-3)") {
    const auto& order = tia_598_order();
    CHECK(shown(1, 12, order) == "blue/blue");
    CHECK(shown(12, 12, order) == "blue/aqua");
    CHECK(shown(13, 12, order) == "orange/blue");
    CHECK(shown(24, 12, order) == "orange/aqua");
    CHECK(shown(25, 12, order) == "green/blue");
    CHECK(shown(34, 12, order) == "green/violet");
    CHECK(shown(72, 12, order) == "white/aqua");
    CHECK(shown(144, 12, order) == "aqua/aqua");
    CHECK(shown(7, 6, order) == "orange/blue");
}

TEST_CASE("beyond twelve the colours repeat with a black tracer, black with a yellow one (COL-2)") {
    const auto& order = tia_598_order();
    CHECK(shown(145, 12, order) == "blue with black tracer/blue");
    CHECK(shown(13, 24, order) == "blue/blue with black tracer");
    CHECK(shown(20, 24, order) == "blue/black with yellow tracer");
    CHECK(shown(25, 48, order) == "blue/blue with 2 black tracers");
    CHECK(shown(32, 48, order) == "blue/black with 2 yellow tracers");
}

TEST_CASE("another national order is data, not code (COL-5, DIN VDE 0888-3, value from memory)") {
    const auto& order = din_vde_0888_order();
    CHECK(shown(1, 12, order) == "red/red");
    CHECK(shown(10, 12, order) == "red/black");
    CHECK(shown(13, 12, order) == "green/red");
    CHECK(shown(22, 24, order) == "red/black with yellow tracer");
}

TEST_CASE("no two strands of a cable look alike") {
    for (const ColourOrder* order : {&tia_598_order(), &din_vde_0888_order()}) {
        CHECK(std::set<std::string>(order->colours.begin(), order->colours.end()).size() == 12);
        for (const int per_tube : {4, 6, 8, 12, 24}) {
            std::set<std::string> seen;
            for (int number = 1; number <= 864; ++number)
                seen.insert(shown(number, per_tube, *order));
            CHECK(seen.size() == 864);
        }
    }
}
