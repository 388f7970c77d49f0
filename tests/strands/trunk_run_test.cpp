#include "strands/trunk_run.hpp"

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {
namespace {

using namespace small_site;

constexpr int first_way = 0;

/// The trunk along the drive: 100 m of grass at 20.00 a metre, set-up 50.00, charges of 530.00.
TrunkRun along_the_drive(const Scenario& site, int way = first_way, int cables = 1) {
    return trunk_run(site, gate, {{drive, way, cables}}, 0);
}

}  // namespace

TEST_CASE("a trunk now is cable as ordered, duct, pulling and both ends") {
    const Scenario site = small_site::site();
    // 100 m and 5 m at each end are 110 m at 1.00; duct 1.50 and pulling 0.36 a metre; ends of 50.00 and four strands
    // plugged at 3.00 each, twice.
    const double price = price_of_trunk(site, along_the_drive(site), site.catalogue.cables[cable_12], 4);
    CHECK(price == doctest::Approx(11000 + 15000 + 3600 + 2 * (5000 + 4 * 300)));
}

TEST_CASE("another trunk later is dug anew: groundworks, set-up, charges, duct, mobilisation") {
    const Scenario site = small_site::site();
    const TrunkRun run = along_the_drive(site);
    const double cable_and_ends = 11000 + 2 * (5000 + 2 * 300);
    const double anew = 200000 + 5000 + 53000 + 15000 + 3600;
    CHECK(price_of_later_trunk(site, run, site.catalogue.cables[cable_12], 0, 0) ==
          doctest::Approx(cable_and_ends + 50000 + anew));
    // Through a spare duct it is pulled and no more; the next one is dug.
    CHECK(price_of_later_trunk(site, run, site.catalogue.cables[cable_12], 0, 1) ==
          doctest::Approx(cable_and_ends + 50000 + 3600));
    CHECK(price_of_later_trunk(site, run, site.catalogue.cables[cable_12], 1, 1) ==
          doctest::Approx(cable_and_ends + 50000 + anew));
    CHECK(price_of_spare_duct(run) == doctest::Approx(15000));
}

TEST_CASE("an existing duct takes as many more cables as it has room for, and no spare duct is laid in it") {
    Scenario site = small_site::site();
    site.segments[drive].duct_room = 3;
    site.existing_duct.pull_hours_per_metre = 0.02;
    const int duct = 1;
    const TrunkRun run = along_the_drive(site, duct, 2);
    CHECK(run.stretches.front().room == 1);
    CHECK(price_of_spare_duct(run) == 0);
    const CableProduct& cable = site.catalogue.cables[cable_12];
    const double pulled = price_of_later_trunk(site, run, cable, 0, 0);
    const double dug = price_of_later_trunk(site, run, cable, 1, 0);
    CHECK(dug - pulled == doctest::Approx(200000 + 5000 + 53000 + 15000 + 3600 - 7200));
    CHECK(price_of_later_trunk(site, run, cable, 1, 1) == doctest::Approx(dug));
}

TEST_CASE("poles take every cable that comes") {
    Scenario site = small_site::site();
    site.segments[drive].pole_line = true;
    const TrunkRun run = along_the_drive(site, 1, 5);
    CHECK(run.stretches.front().room < 0);
    const CableProduct& cable = site.catalogue.cables[cable_12];
    CHECK(price_of_later_trunk(site, run, cable, 40, 0) ==
          doctest::Approx(price_of_later_trunk(site, run, cable, 0, 0)));
}

TEST_CASE("a metre of trunk has no ends, no set-up, no charges and no mobilisation, and lies in the commonest ground") {
    Scenario site = small_site::site();
    Ground tarmac = site.grounds.front();
    tarmac.id = "tarmac";
    tarmac.methods.front().plant_per_metre = cents(9000);
    site.grounds.push_back(tarmac);
    site.segments[path].ground = 1;
    const TrunkRun run = metre_of_trunk(site);
    CHECK_FALSE(run.planned);
    REQUIRE(run.stretches.size() == 1);
    CHECK(run.stretches.front().ground == "grass");
    const CableProduct& cable = site.catalogue.cables[cable_12];
    CHECK(price_of_trunk(site, run, cable, 4) == doctest::Approx(100 + 150 + 36));
    CHECK(price_of_later_trunk(site, run, cable, 0, 0) == doctest::Approx(100 + 2000 + 150 + 36));
    CHECK(price_of_later_trunk(site, run, cable, 0, 1) == doctest::Approx(100 + 36));
}

TEST_CASE("a map without segments that may be used has a metre of cable alone") {
    Scenario site = small_site::site();
    for (Segment& segment : site.segments)
        segment.ban = "no";
    const TrunkRun run = metre_of_trunk(site);
    CHECK(run.stretches.empty());
    CHECK(price_of_trunk(site, run, site.catalogue.cables[cable_4], 4) == doctest::Approx(60));
}

}  // namespace spadework
