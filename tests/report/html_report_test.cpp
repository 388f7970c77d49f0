#include "report/html_report.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "report/figures.hpp"
#include "report/support/crossroads_comparison.hpp"

namespace spadework::report {

namespace {

std::string page_of(const Scenario& scenario, const Comparison& comparison,
                    const EnclosureStudy* enclosures = nullptr) {
    const StrandStudy strands = study_strands(scenario);
    return report_html(scenario, {.comparison = comparison,
                                  .strands = strands,
                                  .enclosures = enclosures,
                                  .explanation = nullptr,
                                  .seed = 1,
                                  .version = "0.1.0"});
}

std::string page_of(const Scenario& scenario) {
    return page_of(scenario, crossroads::comparison_of(scenario));
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

int count_of(const std::string& text, const std::string& part) {
    int count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size()))
        ++count;
    return count;
}

/// Every value of an attribute, in order.
std::vector<std::string> values_of(const std::string& html, const std::string& attribute) {
    std::vector<std::string> values;
    const std::string start = " " + attribute + "=\"";
    for (std::size_t at = html.find(start); at != std::string::npos; at = html.find(start, at + 1)) {
        const std::size_t from = at + start.size();
        values.push_back(html.substr(from, html.find('"', from) - from));
    }
    return values;
}

/// Names of all elements begun.
std::set<std::string> elements_of(const std::string& html) {
    std::set<std::string> names;
    for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
        const std::size_t end = html.find_first_of(" >/\n", at + 1);
        names.insert(html.substr(at + 1, end - at - 1));
    }
    return names;
}

Comparison nothing_feasible(const Scenario& scenario) {
    Design design;
    design.layout = LayoutKind::home_runs;
    design.reason = "building barn cannot be reached";
    return compare(scenario, {assess(scenario, design)});
}

}  // namespace

TEST_CASE("the first section says what to build, what it costs, why and how sure") {
    const Scenario scenario = crossroads::site();
    const Comparison comparison = crossroads::comparison_of(scenario);
    const LayoutResult& best = comparison.layouts[static_cast<std::size_t>(*comparison.cheapest)];
    const std::string page = page_of(scenario, comparison);
    const std::string answer =
        page.substr(page.find("id=\"answer\""), page.find("</section>") - page.find("id=\"answer\""));
    for (const char* term : {"What to build", "What it costs", "Why", "How sure"})
        CHECK(has(answer, "<dt>" + std::string(term) + "</dt>"));
    CHECK(has(answer, name_of(best.layout)));
    CHECK(has(answer, figure(best.total, scenario.currency)));
    CHECK(has(answer, figure(best.bound, scenario.currency)));
    CHECK(has(answer, comparison.verdict.substr(0, 40)));
}

TEST_CASE("the page has one first heading, a language, landmarks and a way past them") {
    const std::string page = page_of(crossroads::site());
    CHECK(has(page, "<!DOCTYPE html>\n<html lang=\"en\">"));
    CHECK(count_of(page, "<h1>") == 1);
    CHECK(count_of(page, "<main>") == 1);
    CHECK(count_of(page, "<header>") == 1);
    CHECK(has(page, "class=\"skip\" href=\"#answer\""));
    CHECK(has(page, "<meta name=\"viewport\""));
}

TEST_CASE("the page loads nothing and runs nothing") {
    const std::string page = page_of(crossroads::site());
    const std::set<std::string> elements = elements_of(page);
    for (const std::string element : {"script", "link", "img", "iframe", "object", "embed", "form", "image", "base"})
        CHECK_MESSAGE(!elements.contains(element), element);
    CHECK(!has(page, "url(http"));
    CHECK(!has(page, "@import"));
    for (const std::string& target : values_of(page, "href"))
        CHECK(target.starts_with("#"));
}

TEST_CASE("no two elements of the page have the same id, and every label exists") {
    const std::string page = page_of(crossroads::site());
    const std::vector<std::string> ids = values_of(page, "id");
    const std::set<std::string> different(ids.begin(), ids.end());
    CHECK(different.size() == ids.size());
    for (const std::string& label : values_of(page, "aria-labelledby"))
        CHECK_MESSAGE(different.contains(label.substr(0, label.find(' '))), label);
}

TEST_CASE("the page has the cheapest layout's sheets, the long ones folded, and the key of its colours") {
    Scenario scenario = crossroads::site();
    scenario.rules.colours = din_vde_0888_order();
    const std::string page = page_of(scenario);
    const std::string sheets = page.substr(page.find("<section id=\"sheets\""));
    for (const char* caption :
         {"Bill of materials", "Cable order by product and length", "Crew hours by trade and task"})
        CHECK(has(sheets, "<caption>" + std::string(caption) + "</caption>"));
    CHECK(count_of(sheets, "<details>") == 5);
    for (const char* summary : {"Strand map: ", "Labels: ", "Pull schedule: ", "Test sheet: "})
        CHECK(has(sheets, "<summary>" + std::string(summary)));
    CHECK(has(sheets, "by DIN VDE 0888"));
    CHECK(has(sheets, "</span>turquoise</li>"));
}

TEST_CASE("every layout that can be built has its plan drawn, once for plans that look alike") {
    const Scenario scenario = crossroads::site();
    const std::string page = page_of(scenario);
    for (const std::string layout : {"home-runs", "trunk-one", "daisy-chain", "ring"})
        CHECK_MESSAGE(has(page, "plan-" + layout + ".svg"), layout);
    CHECK(!has(page, "plan-mixed.svg"));
    std::vector<LayoutResult> twice = {assess(scenario, crossroads::design_of(scenario, crossroads::trunk())),
                                       assess(scenario, crossroads::design_of(scenario, crossroads::trunk()))};
    twice[1].layout = LayoutKind::mixed;
    const std::string alike = page_of(scenario, compare(scenario, twice));
    CHECK(has(alike, "Mixed: the same plan as Trunk, one enclosure."));
    CHECK(!has(alike, "plan-mixed.svg"));
}

TEST_CASE("a site where nothing can be built gets a page that says so and why") {
    const Scenario scenario = crossroads::site();
    const std::string page = page_of(scenario, nothing_feasible(scenario));
    CHECK(has(page, "Nothing</strong> that can be built meets the site"));
    CHECK(has(page, "building barn cannot be reached"));
    CHECK(has(page, "id=\"assumptions\""));
    CHECK(!has(page, "id=\"plan\""));
    CHECK(!has(page, "id=\"layouts\""));
    CHECK(!has(page, "id=\"details\""));
}

TEST_CASE("one layout alone makes a page without the others") {
    const Scenario scenario = crossroads::site();
    const std::string page =
        page_of(scenario, compare(scenario, {assess(scenario, crossroads::design_of(scenario, crossroads::trunk()))}));
    CHECK(has(page, "id=\"plan\""));
    CHECK(!has(page, "id=\"other-plans\""));
}

TEST_CASE("a search that was stopped early is told before anything else") {
    const Scenario scenario = crossroads::site();
    Comparison comparison = crossroads::comparison_of(scenario);
    CHECK(!has(page_of(scenario, comparison), "class=\"notice\""));
    comparison.layouts[0].interrupted = true;
    const std::string page = page_of(scenario, comparison);
    REQUIRE(has(page, "class=\"notice\""));
    CHECK(page.find("class=\"notice\"") < page.find("<dt>"));
}

TEST_CASE("places for the enclosure are shown where they were ranked") {
    const Scenario scenario = crossroads::site();
    EnclosureStudy study;
    study.ranking.push_back({.place = crossroads::corner,
                             .result = assess(scenario, crossroads::design_of(scenario, crossroads::trunk())),
                             .over_best = {},
                             .why = {}});
    study.barred.push_back({.place = crossroads::hub, .reason = "no room"});
    const Comparison comparison = crossroads::comparison_of(scenario);
    const std::string page = page_of(scenario, comparison, &study);
    CHECK(has(page, "<caption>Places ranked</caption>"));
    CHECK(has(page, "no room"));
    CHECK(has(page_of(scenario, comparison), "The places were not ranked"));
    const LayoutResult chains = assess(scenario, crossroads::design_of(scenario, crossroads::chains()));
    CHECK(!has(page_of(scenario, compare(scenario, {chains})), "id=\"enclosures\""));
}

TEST_CASE("an explanation that was asked for is told, with or without a plan to explain") {
    const Scenario scenario = crossroads::site();
    const StrandStudy strands = study_strands(scenario);
    const Comparison comparison = crossroads::comparison_of(scenario);
    const std::optional<Explanation> nothing;
    const std::string page = report_html(scenario, {.comparison = comparison,
                                                    .strands = strands,
                                                    .enclosures = nullptr,
                                                    .explanation = &nothing,
                                                    .seed = 1,
                                                    .version = ""});
    CHECK(has(page, "there is no plan to explain"));
    CHECK(!has(page_of(scenario), "id=\"explanation\""));
}

TEST_CASE("hostile names are shown and make no element") {
    const std::set<std::string> usual = elements_of(page_of(crossroads::site()));
    const std::string page = page_of(crossroads::hostile_site());
    CHECK(has(page, "&lt;b&gt;"));
    for (const char* element : {"b", "script", "img"})
        CHECK(!elements_of(page).contains(element));
    CHECK(page.find('\x1b') == std::string::npos);
    CHECK(!has(page, "\u202E"));
    for (const std::string& element : elements_of(page))
        CHECK_MESSAGE(usual.contains(element), element);
}

TEST_CASE("the same comparison makes the same page, and feet are named in the headings") {
    Scenario scenario = crossroads::site();
    CHECK(page_of(scenario) == page_of(scenario));
    CHECK(has(page_of(scenario), "Trench dug (m)"));
    scenario.feet = true;
    CHECK(has(page_of(scenario), "Trench dug (ft)"));
    CHECK(has(page_of(scenario), "lengths in feet"));
}

}  // namespace spadework::report
