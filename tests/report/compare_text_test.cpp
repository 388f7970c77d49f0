#include "report/compare_text.hpp"

#include <string>

#include <doctest/doctest.h>

#include "report/support/crossroads_comparison.hpp"
#include "report/support/text_checks.hpp"

namespace spadework::report {

namespace {

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("the whole comparison reads as kept") {
    const Scenario scenario = crossroads::site();
    const std::string text = compare_text(scenario, crossroads::comparison_of(scenario));
    check_form(text);
    check_golden(text, "crossroads.txt");
}

TEST_CASE("a site in feet is reported in feet and priced a foot") {
    Scenario scenario = crossroads::site();
    scenario.feet = true;
    const std::string text = compare_text(scenario, crossroads::comparison_of(scenario));
    check_form(text);
    check_golden(text, "crossroads-feet.txt");
    CHECK(!contains(text, "(m)"));
    CHECK(contains(text, "lengths in feet"));
}

TEST_CASE("43 buildings with long names stay within the width and are all there") {
    Scenario scenario = crossroads::long_site();
    const LayoutResult trunk = assess(scenario, crossroads::design_of(scenario, crossroads::long_trunk()));
    REQUIRE_MESSAGE(trunk.feasible(), trunk.reason);
    const std::string text = compare_text(scenario, compare(scenario, {trunk}));
    check_form(text);
    for (const Building& building : scenario.buildings)
        CHECK(contains(text, building.id));
}

TEST_CASE("hostile names do nothing but look odd") {
    const Scenario scenario = crossroads::hostile_site();
    const std::string text = compare_text(scenario, crossroads::comparison_of(scenario));
    check_form(text);
    CHECK(contains(text, "\\x1B[2J"));
    CHECK(contains(text, "\\u202E"));
}

TEST_CASE("with nothing to build, the report says what stops each layout and ends") {
    const Scenario scenario = crossroads::site();
    Design runs;
    runs.reason = "no optic in the catalogue runs 10G";
    const std::string text = compare_text(scenario, compare(scenario, {assess(scenario, runs)}));
    check_form(text);
    CHECK(contains(text, "No layout can be built"));
    CHECK(contains(text, "10G"));
    CHECK(!contains(text, "Cautions"));
}

TEST_CASE("a search that was stopped early is told") {
    const Scenario scenario = crossroads::site();
    Design design = crossroads::design_of(scenario, crossroads::trunk());
    design.interrupted = true;
    design.notes = {"the duct of path is full"};
    const Comparison comparison = compare(scenario, {assess(scenario, design)});
    CHECK(contains(compare_text(scenario, comparison), "the search was stopped early"));
    CHECK(contains(reasons_text(comparison), "the duct of path is full"));
    CHECK(reasons_text(compare(scenario, {})).empty());
}

}  // namespace spadework::report
