#include "catalogue/standard_optics.hpp"

#include <doctest/doctest.h>

using namespace spadework;

namespace {

double channel_db(const OpticalFigures& figures) {
    return figures.launch_min_dbm - figures.receive_min_dbm - figures.penalties_db;
}

}  // namespace

TEST_CASE("the channel may take the loss that the standard's table says (OPT rows, RULE-1, RULE-2)") {
    // Greatest channel insertion loss, dB, from the hub and from the building. IEEE 802.3 clauses 38, 58, 59, 114:
    // values from memory; 10GBASE-LR (clause 52) was read.
    struct Row {
        const char* name;
        double down_db;
        double up_db;
    };
    constexpr Row rows[] = {{"100BASE-LX10", 6.0, 6.0},  {"100BASE-BX10", 5.5, 6.0},  {"1000BASE-LX", 4.57, 4.57},
                            {"1000BASE-LX10", 6.0, 6.0}, {"1000BASE-BX10", 5.5, 6.0}, {"10GBASE-LR", 6.2, 6.2},
                            {"25GBASE-LR", 6.3, 6.3}};
    for (const Row& row : rows) {
        CAPTURE(row.name);
        const auto optic = standard_optic(row.name);
        REQUIRE(optic.has_value());
        CHECK(channel_db(optic->to_building) == doctest::Approx(row.down_db));
        CHECK(channel_db(optic->to_hub) == doctest::Approx(row.up_db));
    }
    // 10GBASE-ER: 10.9 dB at 30 km stands in the table; -4.7 to -15.8 dBm leaves 11.1 (OPT-11, value from memory).
    CHECK(channel_db(standard_optic("10GBASE-ER")->to_building) == doctest::Approx(11.1));
}

TEST_CASE("launch and receive levels are those of the standards (OPT-2, OPT-4, OPT-10, OPT-11)") {
    const auto lx = *standard_optic("1000BASE-LX");
    CHECK(lx.to_building.launch_min_dbm == -11.0);
    CHECK(lx.to_building.receive_min_dbm == -19.0);
    CHECK(lx.reach == Length::from_metres(5000));
    const auto lx10 = *standard_optic("1000BASE-LX10");
    CHECK(lx10.to_building.launch_min_dbm == -9.0);
    CHECK(lx10.to_building.launch_max_dbm == -3.0);
    CHECK(lx10.to_building.receive_min_dbm == -19.5);
    CHECK(lx10.to_building.penalties_db == 4.5);
    CHECK(lx10.reach == Length::from_metres(10000));
    CHECK(lx10.least_length == Length::from_metres(0.5));
    CHECK(lx10.standard == "1000BASE-LX10 (IEEE 802.3 clause 59)");
    const auto lr = *standard_optic("10GBASE-LR");
    CHECK(lr.to_building.launch_min_dbm == -8.2);
    CHECK(lr.to_building.launch_max_dbm == 0.5);
    CHECK(lr.to_building.receive_min_dbm == -14.4);
    CHECK(lr.to_building.receive_max_dbm == 0.5);
    CHECK(lr.reach == Length::from_metres(10000));
}

TEST_CASE("only the 40 km kind needs an attenuator back to back (RULE-3, values from memory)") {
    for (const OpticProduct& optic : standard_optics()) {
        CAPTURE(optic.id);
        for (const OpticalFigures* figures : {&optic.to_building, &optic.to_hub}) {
            const double least_loss = figures->launch_max_dbm - figures->receive_max_dbm;
            CHECK(least_loss == doctest::Approx(optic.id == "10GBASE-ER" ? 5.0 : 0.0));
        }
    }
}

TEST_CASE("one-strand optics talk at two wavelengths, two-strand optics at one (RULE-5)") {
    for (const OpticProduct& optic : standard_optics()) {
        CAPTURE(optic.id);
        const bool differ = optic.to_building.wavelength_nm != optic.to_hub.wavelength_nm;
        CHECK(differ == (optic.strand_use == StrandUse::bidirectional));
    }
    CHECK(standard_optic("1000BASE-BX10")->to_building.wavelength_nm == 1490);
    CHECK(standard_optic("1000BASE-BX10")->to_hub.wavelength_nm == 1310);
}

TEST_CASE("standard optics ascend in rate, name their source and have no price") {
    const auto& optics = standard_optics();
    for (std::size_t i = 1; i < optics.size(); ++i)
        CHECK(optics[i - 1].rate <= optics[i].rate);
    for (const OpticProduct& optic : optics) {
        CHECK_FALSE(optic.source.empty());
        CHECK(optic.price_per_end == UnitPrice());
    }
    CHECK(standard_optic_names().size() == optics.size());
    CHECK_FALSE(standard_optic("1000BASE-XYZ").has_value());
}
