#include "report/strands_report.hpp"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "report/shown_text.hpp"
#include "report/support/crossroads_comparison.hpp"
#include "report/support/text_checks.hpp"

namespace spadework::report {

namespace {

std::string text_of(const Scenario& scenario) {
    const StrandStudy study = study_strands(scenario);
    return strands_text(scenario, study, recommendations_by_rate(scenario, study.run));
}

nlohmann::json json_of(const Scenario& scenario) {
    const StrandStudy study = study_strands(scenario);
    return nlohmann::json::parse(strands_json(scenario, study, recommendations_by_rate(scenario, study.run)));
}

/// The avenue as a trunk, so that amounts are those of a whole one.
TrunkRun avenue_run(const Scenario& scenario) {
    return trunk_run(scenario, crossroads::corner, {{crossroads::avenue, 0, 1}}, 0);
}

Scenario growing_site() {
    Scenario scenario = crossroads::site();
    scenario.growth.buildings = {{"camp", "New camp site", std::nullopt, 0.5, 3, 1},
                                 {"mill", "Old mill", std::nullopt, 0.25, 6, 2}};
    return scenario;
}

}  // namespace

TEST_CASE("the strand study reads as kept") {
    const Scenario scenario = growing_site();
    const std::string text = text_of(scenario);
    check_form(text);
    check_golden(text, "strands.txt");
}

TEST_CASE("in feet the price is a foot") {
    Scenario scenario = growing_site();
    scenario.feet = true;
    const std::string text = text_of(scenario);
    CHECK(text.find("(EUR a ft)") != std::string::npos);
    CHECK(text.find("0.56388") != std::string::npos);  // 1.85 a metre
}

TEST_CASE("the JSON holds need, chances and sizes, and its chances sum to one") {
    const Scenario scenario = growing_site();
    const auto json = json_of(scenario);
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
    const auto json = json_of(scenario);
    CHECK(json["recommended"].is_null());
    check_form(text_of(scenario));
}

TEST_CASE("hostile names do nothing but look odd in the strand study") {
    Scenario scenario = crossroads::hostile_site();
    scenario.growth = growing_site().growth;
    scenario.growth.buildings[0].name = crossroads::hostile;
    check_form(text_of(scenario));
    CHECK(json_of(scenario)["sizes"].size() == scenario.catalogue.cables.size());
}

TEST_CASE("a planned trunk's amounts are whole money, and the JSON has the same") {
    Scenario scenario = growing_site();
    scenario.growth.unnamed_links_per_year = 0.5;
    scenario.growth.discount_rate = Percent::from_percent(3);
    const StrandStudy study = study_strands(scenario, avenue_run(scenario));
    const GrowthRates rates = recommendations_by_rate(scenario, study.run);
    const std::string text = strands_text(scenario, study, rates);
    check_form(text);
    check_golden(text, "strands-planned.txt");
    const auto json = nlohmann::json::parse(strands_json(scenario, study, rates));
    CHECK(json["trunk"]["planned"] == true);
    for (std::size_t i = 0; i < study.sizes.size(); ++i) {
        const auto& size = json["sizes"][i];
        const double sum = size["price_now"].get<double>() + size["expected_later"].get<double>();
        CHECK(size["sum"].get<double>() == doctest::Approx(sum).epsilon(1e-6));
        double years = 0;
        for (const auto& year : size["expected_by_year"])
            years += year.get<double>();
        CHECK(years == doctest::Approx(size["expected_later"].get<double>()).epsilon(1e-6));
    }
    CHECK(json["policies"].size() == 7);
    CHECK(json["by_growth_rate"].size() == rates.rates.size());
}

}  // namespace spadework::report
