#include "report/plan_kml.hpp"

#include <regex>
#include <string>

#include <doctest/doctest.h>

#include "report/support/crossroads_comparison.hpp"

namespace spadework::report {

namespace {

Scenario in_degrees() {
    Scenario scenario = crossroads::site();
    scenario.coordinates = CoordinateSystem::wgs84_degrees;
    scenario.places[crossroads::hub].at = {-0.1, 1.0 / 3.0};
    return scenario;
}

std::string written(const Scenario& scenario, const RoutedLayout& routed) {
    const LayoutResult result = assess(scenario, crossroads::design_of(scenario, routed));
    REQUIRE_MESSAGE(result.feasible(), result.reason);
    return plan_kml(scenario, result);
}

int count_of(const std::string& text, const std::string& part) {
    int count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size()))
        ++count;
    return count;
}

}  // namespace

TEST_CASE("only positions in degrees can be written as KML") {
    CHECK(!has_kml(crossroads::site()));
    CHECK(has_kml(in_degrees()));
}

TEST_CASE("places, trenches and cables stand in folders of their own") {
    const std::string kml = written(in_degrees(), crossroads::trunk());
    CHECK(count_of(kml, "<Folder>") == 3);
    CHECK(count_of(kml, "<Placemark>") == 1 + 3 + 1 + 2 + 6 + 4);
    CHECK(count_of(kml, "<Point>") == 7);
    CHECK(count_of(kml, "<LineString>") == 10);
    for (const char* kind : {"hub", "building", "enclosure", "place", "trench", "pole-line", "cable"}) {
        CHECK(kml.find("<styleUrl>#" + std::string(kind)) != std::string::npos);
        CHECK(kml.find("<Style id=\"" + std::string(kind)) != std::string::npos);
    }
}

TEST_CASE("positions read back as the very same numbers") {
    const std::string kml = written(in_degrees(), crossroads::trunk());
    const std::regex hub("<styleUrl>#hub</styleUrl>.*?<coordinates>([^,]+),([^<]+)</coordinates>");
    std::smatch found;
    REQUIRE(std::regex_search(kml, found, hub));
    CHECK(std::stod(found[1]) == -0.1);
    CHECK(std::stod(found[2]) == 1.0 / 3.0);
}

TEST_CASE("facts are in the balloon with their units and among the data by their names") {
    const std::string kml = written(in_degrees(), crossroads::trunk());
    CHECK(kml.find("&lt;th align=&quot;left&quot;&gt;Length (m)&lt;/th&gt;") != std::string::npos);
    CHECK(kml.find("&gt;Cost (") != std::string::npos);
    CHECK(kml.find("<Data name=\"length_m\"><value>") != std::string::npos);
}

TEST_CASE("a hostile name is escaped twice where a viewer reads HTML") {
    Scenario scenario = crossroads::hostile_site();
    scenario.coordinates = CoordinateSystem::wgs84_degrees;
    const std::string kml = written(scenario, crossroads::chains());
    CHECK(kml.find("&amp;lt;b&amp;gt;") != std::string::npos);
    CHECK(kml.find("<b>") == std::string::npos);
    CHECK(kml.find("&lt;b&gt;") != std::string::npos);  // As data, which is text.
    CHECK(kml.find('\x1b') == std::string::npos);
    const std::size_t start = kml.find("<description>");
    CHECK(kml.substr(start, kml.find("</description>", start) - start).find("&lt;b&gt;") == std::string::npos);
}

TEST_CASE("a cable without length has no line") {
    const Scenario scenario = in_degrees();
    LayoutResult result = assess(scenario, crossroads::design_of(scenario, crossroads::trunk()));
    result.plan->cables[0].steps.clear();
    CHECK(count_of(plan_kml(scenario, result), "<LineString>") == 9);
}

}  // namespace spadework::report
