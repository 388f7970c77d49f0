#include "sheets/pull_schedule.hpp"

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {

TEST_CASE("a cable is pulled from one point that can be reached to the next") {
    const Scenario site = small_site::site();  // the gate is a handhole
    const auto schedule = pull_schedule(site, small_site::home_runs(site));
    REQUIRE(schedule.size() == 2);
    REQUIRE(schedule[0].stretches.size() == 2);
    CHECK(schedule[0].stretches[0].length == Length::from_metres(100));
    CHECK(schedule[0].stretches[1].length == Length::from_metres(30));
    CHECK(schedule[0].longest == Length::from_metres(100));
}

TEST_CASE("where no handhole is passed the bend counts, and the turn is in degrees") {
    Scenario site = small_site::site();
    site.places[small_site::gate].kind = PlaceKind::junction;
    const auto schedule = pull_schedule(site, small_site::home_runs(site));
    REQUIRE(schedule[0].stretches.size() == 1);
    CHECK(schedule[0].stretches[0].bends == 1);
    CHECK(schedule[0].stretches[0].turned_degrees == doctest::Approx(90));
    CHECK(schedule[1].stretches[0].bends == 0);  // straight on
}

TEST_CASE("a 12 mm cable bends no tighter than 240 mm while pulled (PULL-2) and 120 mm at rest (PULL-6)") {
    Scenario site = small_site::site();
    for (CableProduct& product : site.catalogue.cables)
        product.diameter_mm = 12;
    const auto schedule = pull_schedule(site, small_site::home_runs(site));
    CHECK(schedule[0].radius_pulling == Length::from_millimetres(240));
    CHECK(schedule[0].radius_installed == Length::from_millimetres(120));
}

TEST_CASE("a pull is limited by the cable's maker, or else by the usual 2669 N (PULL-1, 7 CFR 1755.200)") {
    Scenario site = small_site::site();
    CHECK(pull_schedule(site, small_site::home_runs(site))[0].most_tension_n == 2669);
    CHECK(pull_schedule(site, small_site::home_runs(site))[0].tension_source == "7 CFR 1755.200");
    for (CableProduct& product : site.catalogue.cables)
        product.most_tension_n = 1500;
    CHECK(pull_schedule(site, small_site::home_runs(site))[0].most_tension_n == 1500);
    CHECK(pull_schedule(site, small_site::home_runs(site))[0].tension_source == "the catalogue");
}

}  // namespace spadework
