#include "failures/failures.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "checks/checks.hpp"
#include "layout/design.hpp"
#include "layout/support/drawn_site.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

const Failure& failure(const FailureStudy& study, FailureKind kind, std::int32_t index) {
    const auto found = std::ranges::find_if(study.failures,
                                            [&](const Failure& one) { return one.kind == kind && one.index == index; });
    REQUIRE(found != study.failures.end());
    return *found;
}

/// The small site with published figures for cuts and none for anything else.
Scenario site_with_cuts_only() {
    Scenario site = small_site::site();
    site.rules.failures.cut_per_km = {0.002728, 12};
    return site;
}

using Buildings = std::vector<BuildingIndex>;

}  // namespace

TEST_CASE(
    "a kilometre at 4.39 cuts a year on 1,000 miles, mended in 12 h, is dark for 1.964 minutes a year (REL-1, REL-2)") {
    const FailureRate rate{0.002728, 12};
    CHECK(rate.minutes_per_year() == doctest::Approx(1.964).epsilon(0.0005));
    CHECK(4.39 / 1000 / 1.609344 == doctest::Approx(rate.per_year).epsilon(0.0002));
}

TEST_CASE("home runs: a cut takes down what lies behind it, by its length a year") {
    const Scenario site = site_with_cuts_only();
    const FailureStudy study = study_failures(site, small_site::home_runs(site));
    const Failure& drive = failure(study, FailureKind::segment_cut, small_site::drive);
    CHECK(drive.lost == Buildings{small_site::barn, small_site::mill});
    CHECK(drive.cables == 2);
    CHECK(drive.minutes_per_year() == doctest::Approx(0.1964).epsilon(0.0005));
    CHECK(failure(study, FailureKind::segment_cut, small_site::path).lost == Buildings{small_site::barn});
    // Barn hangs on 130 m, mill on 150 m.
    CHECK(study.outage_minutes[small_site::barn] == doctest::Approx(1.964 * 0.130).epsilon(0.0005));
    CHECK(study.worst_minutes == doctest::Approx(1.964 * 0.150).epsilon(0.0005));
    CHECK(study.mean_minutes == doctest::Approx(1.964 * 0.140).epsilon(0.0005));
}

TEST_CASE(
    "an enclosure takes down all it serves, a building's gear in a chain all that is behind it, the hub everything") {
    Scenario site = site_with_cuts_only();
    site.rules.failures.enclosure = {0.002, 12};
    const FailureStudy trunk = study_failures(site, small_site::trunk(site));
    CHECK(failure(trunk, FailureKind::enclosure, 0).lost.size() == 2);
    const Plan chain = small_site::chain(site);
    const FailureStudy chained = study_failures(site, chain);
    const BuildingIndex first = chain.chains[0][0];
    const BuildingIndex second = chain.chains[0][1];
    CHECK(failure(chained, FailureKind::building_gear, first).lost.size() == 2);
    CHECK(failure(chained, FailureKind::building_gear, second).lost == Buildings{second});
    CHECK(failure(chained, FailureKind::hub, 0).lost.size() == 2);
}

TEST_CASE("the worst cut is found by flooding as it is by following dependence") {
    for (unsigned number = 0; number < 30; ++number) {
        CAPTURE(number);
        drawing::Dice dice(number);
        Scenario site = drawing::row_site(static_cast<int>(dice.between(2, 6)), 50);
        drawing::add_segment(site, 0, static_cast<PlaceIndex>(site.places.size()) - 1, 400);
        site.rules.most_enclosures = 2;
        for (const LayoutKind kind :
             {LayoutKind::home_runs, LayoutKind::trunk, LayoutKind::mixed, LayoutKind::daisy_chain, LayoutKind::ring}) {
            const Design design = spadework::design(kind, site, {});
            if (!design.plan) continue;
            const FailureStudy study = study_failures(site, *design.plan);
            std::size_t most = 0;
            for (const Failure& one : study.failures) {
                if (one.kind == FailureKind::segment_cut) most = std::max(most, one.lost.size());
            }
            CHECK(most == worst_cut(site, *design.plan).lost.size());
        }
    }
}

TEST_CASE("a second way around the worst cut costs what opening it costs") {
    Scenario site = site_with_cuts_only();
    small_site::add_segment(site, "bypass", small_site::hub, small_site::mill_place, 200);
    const FailureStudy study = study_failures(site, small_site::home_runs(site));
    REQUIRE(study.second_way);
    CHECK(study.second_way->around == small_site::drive);
    CHECK(study.second_way->segments == std::vector<SegmentIndex>{3});
    CHECK(study.second_way->length == Length::from_metres(200));
    CHECK(study.second_way->opening == Money::from_minor(200 * 2000 + 5000));  // 20.00 a metre and 50.00 to set up
}

TEST_CASE("where the map has no second way, the nearest places on either side are named") {
    const Scenario site = site_with_cuts_only();
    const FailureStudy study = study_failures(site, small_site::home_runs(site));
    REQUIRE(study.second_way);
    CHECK(study.second_way->segments.empty());
    CHECK(study.second_way->metres_apart == doctest::Approx(100));
}

TEST_CASE("no second way is asked for where no cut takes down two buildings") {
    Scenario site = drawing::row_site(1, 50);
    const Design design = spadework::design(LayoutKind::home_runs, site, {});
    REQUIRE(design.plan);
    CHECK_FALSE(study_failures(site, *design.plan).second_way);
}

}  // namespace spadework
