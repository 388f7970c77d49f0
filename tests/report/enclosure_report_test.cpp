#include "report/enclosure_report.hpp"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "report/support/crossroads_comparison.hpp"
#include "report/support/text_checks.hpp"

namespace spadework::report {

namespace {

/// The trunk at the corner as the best place, the same a little dearer at the gate, the hub impossible, the yard
/// barred.
EnclosureStudy study_of(const Scenario& scenario) {
    EnclosureStudy study;
    const LayoutResult corner =
        assess(scenario, crossroads::design_of(scenario, crossroads::trunk(), Money::from_minor(900000)));
    LayoutResult gate = corner;
    gate.total += Money::from_minor(123456);
    LayoutResult hub;
    hub.layout = LayoutKind::trunk_one;
    hub.reason = "no cable is long enough";
    study.ranking = {
        {crossroads::corner, corner, Money(), ""},
        {crossroads::gate, gate, Money::from_minor(123456), "cable EUR 1,234.56 more (80.0 m more cable ordered)"},
        {crossroads::hub, hub, Money(), ""}};
    study.barred = {{crossroads::yard, "floods in spring"}};
    LayoutResult two;
    two.layout = LayoutKind::trunk;
    two.reason = "two enclosures are not allowed";
    study.by_count = {corner, two};
    return study;
}

}  // namespace

TEST_CASE("the ranking of places reads as kept") {
    const Scenario scenario = crossroads::site();
    const std::string text = enclosure_text(scenario, study_of(scenario));
    check_form(text);
    check_golden(text, "enclosure.txt");
}

TEST_CASE("the JSON ranks every place, says what is barred, and gives the best in full") {
    const Scenario scenario = crossroads::site();
    const auto json = nlohmann::json::parse(enclosure_json(scenario, study_of(scenario), 3));
    CHECK(json["seed"] == 3);
    REQUIRE(json["ranking"].size() == 3);
    CHECK(json["ranking"][0]["place"] == "corner");
    CHECK(json["ranking"][0]["over_best"] == 0);
    CHECK(json["ranking"][1]["over_best"] == 1234.56);
    CHECK(json["ranking"][1]["why"] != "");
    CHECK(json["ranking"][2]["total_cost"].is_null());
    CHECK(json["ranking"][2]["reason"] == "no cable is long enough");
    CHECK(json["best"]["cables"].size() == 4);
    CHECK(json["barred"][0]["place"] == "yard");
    CHECK(json["barred"][0]["reason"] == "floods in spring");
    CHECK(json["by_count"][1]["enclosures"] == 2);
    CHECK(json["by_count"][1]["result"]["status"] == "infeasible");
}

TEST_CASE("with no place allowed the report says so") {
    EnclosureStudy study;
    study.barred = {{crossroads::yard, "floods in spring"}};
    const Scenario scenario = crossroads::site();
    const std::string text = enclosure_text(scenario, study);
    check_form(text);
    CHECK(text.find("No place can take the enclosure") != std::string::npos);
    CHECK(nlohmann::json::parse(enclosure_json(scenario, study, 1))["best"].is_null());
}

TEST_CASE("hostile names do nothing but look odd in the ranking") {
    const Scenario scenario = crossroads::hostile_site();
    check_form(enclosure_text(scenario, study_of(scenario)));
    CHECK(nlohmann::json::accept(enclosure_json(scenario, study_of(scenario), 1)));
}

}  // namespace spadework::report
