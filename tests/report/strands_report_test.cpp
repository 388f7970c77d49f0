#include "report/strands_report.hpp"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "report/shown_text.hpp"
#include "report/support/crossroads_comparison.hpp"
#include "report/support/text_checks.hpp"

namespace spadework::report {

namespace {

Scenario growing_site() {
    Scenario scenario = crossroads::site();
    scenario.growth.buildings = {{"camp", "New camp site", std::nullopt, 0.5, 3, 1},
                                 {"mill", "Old mill", std::nullopt, 0.25, 6, 2}};
    return scenario;
}

}  // namespace

TEST_CASE("the strand study reads as kept") {
    const Scenario scenario = growing_site();
    const std::string text = strands_text(scenario, study_strands(scenario));
    check_form(text);
    check_golden(text, "strands.txt");
}

TEST_CASE("in feet the price is a foot") {
    Scenario scenario = growing_site();
    scenario.feet = true;
    const std::string text = strands_text(scenario, study_strands(scenario));
    CHECK(text.find("(EUR a ft)") != std::string::npos);
    CHECK(text.find("0.56388") != std::string::npos);  // 1.85 a metre
}

TEST_CASE("the JSON holds need, chances and sizes, and its chances sum to one") {
    const Scenario scenario = growing_site();
    const auto json = nlohmann::json::parse(strands_json(scenario, study_strands(scenario)));
    CHECK(json["need"]["in_use"] == 8);
    CHECK(json["need"]["total"] == 13);
    CHECK(json["buildings"].size() == 3);
    double sum = 0;
    for (const auto& chance : json["growth_distribution"])
        sum += chance.get<double>();
    CHECK(sum == doctest::Approx(1));
    REQUIRE(json["sizes"].size() == 3);
    CHECK(json["sizes"][0]["strands"] == 4);
    CHECK(json["sizes"][0]["meets_policy"] == false);
    CHECK(json["recommended"] == "cable-24");
    CHECK(json["reason"] != "");
}

TEST_CASE("with no cable that is large enough nothing is recommended") {
    Scenario scenario = growing_site();
    scenario.catalogue.cables.resize(1);
    const auto json = nlohmann::json::parse(strands_json(scenario, study_strands(scenario)));
    CHECK(json["recommended"].is_null());
    check_form(strands_text(scenario, study_strands(scenario)));
}

TEST_CASE("hostile names do nothing but look odd in the strand study") {
    Scenario scenario = crossroads::hostile_site();
    scenario.growth = growing_site().growth;
    scenario.growth.buildings[0].name = crossroads::hostile;
    check_form(strands_text(scenario, study_strands(scenario)));
    CHECK(nlohmann::json::accept(strands_json(scenario, study_strands(scenario))));
}

}  // namespace spadework::report
