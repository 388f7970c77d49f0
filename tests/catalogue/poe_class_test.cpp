#include "catalogue/poe_class.hpp"

#include <cmath>

#include <doctest/doctest.h>

using namespace spadework;

TEST_CASE("the classes are those of IEEE 802.3 clauses 33 and 145 (POE-0 to POE-8, secondary source)") {
    struct Row {
        int number;
        int type;
        double source_w;
        double device_w;
    };
    constexpr Row rows[] = {{0, 1, 15.4, 12.95}, {1, 1, 4.0, 3.84}, {2, 1, 7.0, 6.49},
                            {3, 1, 15.4, 12.95}, {4, 2, 30, 25.5},  {5, 3, 45, 40},
                            {6, 3, 60, 51},      {7, 4, 75, 62},    {8, 4, 90, 71.3}};
    const auto& classes = poe_classes();
    REQUIRE(classes.size() == std::size(rows));
    for (std::size_t i = 0; i < classes.size(); ++i) {
        CHECK(classes[i].number == rows[i].number);
        CHECK(classes[i].type == rows[i].type);
        CHECK(classes[i].source_w == rows[i].source_w);
        CHECK(classes[i].device_w == rows[i].device_w);
    }
}

TEST_CASE("what arrives is what is sent less the loss in the worst cable (POE-V, POE-R, values from memory)") {
    // Loss is I squared R a pair set: source power at the least source voltage, 20 or 12.5 ohm, one or two pair sets.
    struct Row {
        int number;
        double volts;
        double ohms;
        int pair_sets;
        double tolerance_w;
    };
    constexpr Row rows[] = {{0, 44, 20, 1, 0.001},  {3, 44, 20, 1, 0.001},   {4, 50, 12.5, 1, 0.001},
                            {5, 50, 12.5, 2, 0.07}, {6, 50, 12.5, 2, 0.001}, {7, 52, 12.5, 2, 0.01},
                            {8, 52, 12.5, 2, 0.03}};
    for (const Row& row : rows) {
        const PoeClass& poe = poe_classes()[static_cast<std::size_t>(row.number)];
        const double amperes = poe.source_w / row.volts / row.pair_sets;
        const double arriving = poe.source_w - row.pair_sets * amperes * amperes * row.ohms;
        CAPTURE(row.number);
        CHECK(std::abs(arriving - poe.device_w) <= row.tolerance_w);
    }
}

TEST_CASE("a device that does not say its class takes as much as one of class 3 (POE-0)") {
    CHECK(poe_classes()[0].source_w == poe_classes()[3].source_w);
    CHECK(poe_classes()[0].device_w == poe_classes()[3].device_w);
}

TEST_CASE("a device gets the smallest class that surely reaches it") {
    CHECK(poe_class_for(0)->number == 1);
    CHECK(poe_class_for(3.84)->number == 1);
    CHECK(poe_class_for(3.85)->number == 2);
    CHECK(poe_class_for(12)->source_w == 15.4);
    CHECK(poe_class_for(12.95)->number == 3);
    CHECK(poe_class_for(13)->number == 4);
    CHECK(poe_class_for(71.3)->number == 8);
    CHECK_FALSE(poe_class_for(71.4).has_value());
}
