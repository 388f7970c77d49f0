#include "sheets/test_sheet.hpp"

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {
namespace {

std::vector<StrandTest> sheet_of(const Scenario& site, const Plan& plan) {
    return test_sheet(site, plan, map_strands(site, plan, tia_598_order()));
}

}  // namespace

TEST_CASE("every strand of every link is measured") {
    const Scenario site = small_site::site();
    const auto sheet = sheet_of(site, small_site::trunk(site));
    REQUIRE(sheet.size() == 4);
    for (const StrandTest& test : sheet)
        CHECK(test.strands.size() == 2);
}

TEST_CASE("the limit is fibre, pairs and splices at their allowances (MIL-STD-2042-6B(SH) 3.3.2)") {
    Scenario site = small_site::site();
    site.rules.loss.attenuation_1310_db_per_km = 0.4;
    site.rules.loss.mated_pair_db = 0.75;
    const auto sheet = sheet_of(site, small_site::trunk(site));
    // Barn: 110 m of trunk and 40 m of drop as ordered, three mated pairs.
    REQUIRE(sheet[0].limits.size() == 1);
    CHECK(sheet[0].glass == Length::from_metres(150));
    CHECK(sheet[0].limits[0].calculated_db == doctest::Approx(0.15 * 0.4 + 3 * 0.75));
    CHECK(sheet[0].limits[0].optics_db == doctest::Approx(6.0));
    CHECK(sheet[0].limits[0].pass_db == doctest::Approx(0.06 + 2.25));
}

TEST_CASE("where the optics carry less than the allowances, they set the limit") {
    Scenario site = small_site::site();
    site.rules.loss.mated_pair_db = 2.5;
    const auto sheet = sheet_of(site, small_site::trunk(site));
    CHECK(sheet[0].limits[0].pass_db == doctest::Approx(6.0));
}

TEST_CASE("a reflectometer shows a connector at the hub, at the enclosure and in the building") {
    const Scenario site = small_site::site();
    const auto sheet = sheet_of(site, small_site::trunk(site));
    const auto& events = sheet[0].events;
    REQUIRE(events.size() == 3);
    CHECK(events[0].where == "hub");
    CHECK(events[0].distance == Length());
    CHECK(events[1].where == "enclosure at gate");
    CHECK(events[1].distance == Length::from_metres(110));
    CHECK(events[2].where == "building barn");
    CHECK(events[2].distance == Length::from_metres(150));
}

TEST_CASE("joints show where one factory length ends and the next begins") {
    Scenario site = small_site::site();
    for (CableProduct& product : site.catalogue.cables)
        product.longest = Length::from_metres(60);
    Plan plan = small_site::home_runs(site);
    for (PlannedCable& cable : plan.cables)
        cable.lengths = cable_lengths(site.catalogue.cables[0], cable.lengths.route, 0, site.rules);
    const auto sheet = sheet_of(site, plan);
    REQUIRE(sheet[0].events.size() == 4);
    CHECK(sheet[0].events[1].where == "joint 1 of run-barn");
    CHECK(sheet[0].events[1].distance == Length::from_metres(60));
    CHECK(sheet[0].events[2].distance == Length::from_metres(120));
    CHECK(sheet[0].events[3].distance == Length::from_metres(140));
}

TEST_CASE("attenuators are plugged after the test, and what they take is kept free by then") {
    Scenario site = small_site::site();
    site.catalogue.attenuators = {{"att-3", "att-3", 3, {}}};
    Plan plan = small_site::trunk(site);
    plan.links[0].attenuator_at_end = 0;
    const auto sheet = sheet_of(site, plan);
    CHECK(sheet[0].limits[0].calculated_db == doctest::Approx(0.06 + 2.25));
    CHECK(sheet[0].limits[0].optics_db == doctest::Approx(6.0 - 3));
    CHECK(sheet[2].limits[0].optics_db == doctest::Approx(6.0));
}

}  // namespace spadework
