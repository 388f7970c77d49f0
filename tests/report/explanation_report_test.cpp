#include "report/explanation_report.hpp"

#include <sstream>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "report/compare_json.hpp"
#include "report/support/crossroads_comparison.hpp"
#include "report/support/text_checks.hpp"

namespace spadework::report {

namespace {

Alternative found(std::int64_t extra, std::optional<std::int64_t> least = std::nullopt) {
    Alternative alternative;
    alternative.looked_at = alternative.found = true;
    alternative.extra = Money::from_minor(extra);
    if (least) alternative.least_extra = Money::from_minor(*least);
    return alternative;
}

Alternative none(const std::string& reason) {
    Alternative alternative;
    alternative.looked_at = true;
    alternative.reason = reason;
    return alternative;
}

Service from_corner(double metres) {
    return {crossroads::corner, std::nullopt, std::nullopt, Length::from_metres(metres)};
}

/// A mix with an enclosure at the corner: the barn drops from there, the kiosk has a home run, the lodge was not looked
/// at to the end.
Explanation explanation() {
    Explanation result;
    result.layout = LayoutKind::mixed;
    result.enclosures = {{crossroads::corner, 2, found(123456, 100000), {crossroads::gate}, found(200000, 200000), {}}};
    const Service hub_run{std::nullopt, std::nullopt, std::nullopt, Length::from_metres(170)};
    result.buildings = {{crossroads::barn_house,
                         from_corner(80.25),
                         Length::from_metres(80.25),
                         Length(),
                         none("its own segments are the only way to it"),
                         {},
                         {},
                         found(-345678, -345678)},
                        {crossroads::kiosk_house, hub_run, Length::from_metres(110), Length::from_metres(60),
                         found(9999), from_corner(95), crossroads::road, found(-500000, -510000)},
                        {crossroads::lodge_house,
                         from_corner(70),
                         Length(),
                         Length::from_metres(70),
                         found(50, 50),
                         from_corner(114),
                         {},
                         Alternative()}};
    result.interrupted = true;
    return result;
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("the explanation reads as kept") {
    const std::string text = explanation_text(crossroads::site(), explanation());
    check_form(text);
    check_golden(text, "explanation.txt");
}

TEST_CASE("a site in feet is explained in feet") {
    Scenario scenario = crossroads::site();
    scenario.feet = true;
    const std::string text = explanation_text(scenario, explanation());
    check_form(text);
    CHECK(contains(text, "(ft)"));
    CHECK(!contains(text, "(m)"));
    CHECK(contains(explanation_csv(scenario, explanation()), "own_trench_ft"));
}

TEST_CASE("a plan without enclosures and a site without a plan say so") {
    Explanation runs = explanation();
    runs.layout = LayoutKind::home_runs;
    runs.enclosures.clear();
    CHECK(contains(explanation_text(crossroads::site(), runs), "Home runs: the plan has no enclosure."));
    const std::string nothing = explanation_text(crossroads::site(), std::nullopt);
    check_form(nothing);
    CHECK(contains(nothing, "there is no plan to explain"));
}

TEST_CASE("an alternative that costs less is pointed out") {
    Explanation cheaper = explanation();
    CHECK(!contains(explanation_text(crossroads::site(), cheaper), "cheaper than this one"));
    cheaper.buildings[1].otherwise = found(-1);
    CHECK(contains(explanation_text(crossroads::site(), cheaper), "cheaper than this one"));
}

TEST_CASE("hostile names in an explanation do nothing but look odd") {
    check_form(explanation_text(crossroads::hostile_site(), explanation()));
}

TEST_CASE("the JSON of a comparison carries the explanation, or null") {
    const Scenario scenario = crossroads::site();
    const Comparison comparison = crossroads::comparison_of(scenario);
    const auto json = nlohmann::json::parse(compare_json(scenario, comparison, 1, explanation()))["explanation"];
    CHECK(json["layout"] == "mixed");
    CHECK(json["interrupted"] == true);
    const auto& corner = json["enclosures"][0];
    CHECK(corner["place"] == "corner");
    CHECK(corner["elsewhere"]["extra_cost"] == 1234.56);
    CHECK(corner["elsewhere"]["proven_least_extra_cost"] == 1000);
    CHECK(corner["elsewhere"]["proved"] == false);
    CHECK(corner["elsewhere"]["enclosures"] == nlohmann::json::parse(R"(["gate"])"));
    CHECK(corner["one_fewer"]["proved"] == true);
    const auto& barn = json["buildings"][0];
    CHECK(barn["otherwise"]["status"] == "none");
    CHECK(barn["otherwise"]["extra_cost"].is_null());
    CHECK(barn["left_out"]["extra_cost"] == -3456.78);
    const auto& kiosk = json["buildings"][1];
    CHECK(kiosk["served_from"] == "hub");
    CHECK(kiosk["otherwise"]["point"] == "corner");
    CHECK(kiosk["otherwise"]["segment_avoided"] == "road");
    CHECK(json["buildings"][2]["left_out"]["status"] == "not-looked-at");

    CHECK(nlohmann::json::parse(compare_json(scenario, comparison, 1, std::nullopt))["explanation"].is_null());
    CHECK(!nlohmann::json::parse(compare_json(scenario, comparison, 1)).contains("explanation"));
}

TEST_CASE("the table of the explanation has two rows for each enclosure and building") {
    std::istringstream table(explanation_csv(crossroads::site(), explanation()));
    std::vector<std::string> rows;
    for (std::string row; std::getline(table, row);)
        rows.push_back(row);
    REQUIRE(rows.size() == 9);
    CHECK(rows[1] == "enclosure,corner,,,,,elsewhere,found,1234.56,1000.00,no,EUR,gate,,,,\r");
    CHECK(rows[2] == "enclosure,corner,,,,,one-fewer,found,2000.00,2000.00,yes,EUR,,,,,\r");
    CHECK(rows[5] == "building,kiosk,hub,170,110,60,otherwise,found,99.99,,no,EUR,,corner,95,road,\r");
    CHECK(rows[8] == "building,lodge,corner,70,0,70,left-out,not-looked-at,,,no,EUR,,,,,\r");
    CHECK(explanation_csv(crossroads::site(), std::nullopt) == rows[0] + "\n");
}

}  // namespace spadework::report
