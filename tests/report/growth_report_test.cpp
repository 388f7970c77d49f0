#include "report/growth_report.hpp"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "layout/support/drawn_site.hpp"
#include "report/compare_json.hpp"
#include "report/support/text_checks.hpp"

namespace spadework::report {

namespace {

using namespace drawing;

/// hub --100 m-- p1 --100 m-- p2, a building 10 m off each, and a plot 10 m off the far end where one may come.
Scenario street() {
    Scenario site = bare_site();
    const PlaceIndex near = add_place(site);
    const PlaceIndex far = add_place(site);
    drawing::add_segment(site, 0, near, 100);
    drawing::add_segment(site, near, far, 100);
    for (const PlaceIndex from : {near, far}) {
        const PlaceIndex at = add_place(site);
        drawing::add_segment(site, from, at, 10);
        add_building(site, at);
    }
    FutureBuilding future;
    future.id = "annexe";
    future.place = add_place(site, PlaceKind::building);
    future.chance = 0.9;
    future.year = 3;
    drawing::add_segment(site, far, *future.place, 10);
    site.growth.buildings = {future};
    site.growth.horizon_years = 10;
    for (Place& place : site.places)
        place.enclosure_allowed = place.kind == PlaceKind::junction;
    return site;
}

GrowthStudy study_of(const Scenario& site) {
    StudyOptions options;
    options.seconds = 5;
    return plan_for_growth(site, rank_places_for_one(site, options));
}

}  // namespace

TEST_CASE("the plan for growth reads as kept") {
    const Scenario site = street();
    const std::string text = growth_text(site, study_of(site));
    check_form(text);
    check_golden(text, "growth.txt");
}

TEST_CASE("in the JSON the value of knowing is the difference of the two expected totals") {
    const Scenario site = street();
    const GrowthStudy study = study_of(site);
    const auto json = nlohmann::json::parse(compare_json(site, {}, 1, BesideComparison{nullptr, &study}));
    const auto& growth = json["growth"];
    CHECK(growth["value_of_knowing"].get<double>() ==
          doctest::Approx(growth["cheapest_today"]["expected_total"].get<double>() -
                          growth["planned_for_growth"]["expected_total"].get<double>()));
    CHECK(growth["places"].size() == study.places.size());
}

TEST_CASE("a site without growth says that there is nothing to plan for") {
    Scenario site = street();
    site.growth.buildings.clear();
    const GrowthStudy study = study_of(site);
    const std::string text = growth_text(site, study);
    check_form(text);
    CHECK(text.find("nothing to plan for") != std::string::npos);
    CHECK(nlohmann::json::parse(compare_json(site, {}, 1, BesideComparison{nullptr, &study}))["growth"]["reason"] !=
          "");
}

}  // namespace spadework::report
