#include <algorithm>

#include <doctest/doctest.h>

#include "site_file/site_texts.hpp"
#include "site_file/varying_site.hpp"

using namespace spadework;
using namespace spadework::site_file;
using namespace spadework::site_file::testing;

namespace {

/// The small site with several ranges.
std::string open_site() {
    std::string text = with(small_site(), "labour: 0.2, plant: 4,",
                            "labour: {low: 0.1, likely: 0.2, high: 0.4, group: digging}, plant: {low: 3, high: 6},");
    text = with(text, "methods: [{id: open cut",
                "difficulty: {chance: 0.3, otherwise: 1, then: 2.5, group: digging}, methods: [{id: open cut");
    text =
        with(text, "length: 61.5",
             "length: {low: 60, likely: 61.5, high: 80}, charges: [{what: crossing, amount: {low: 100, high: 300}}]");
    text = with(text, "price: 1.30", "price: {low: 1, likely: 1.3, high: 2, shape: pert}");
    return with(text, "installer-rate: 48", "installer-rate: {low: 40, likely: 48, high: 60, tails: 10}");
}

/// The same file with plain numbers where the ranges were.
std::string settled_site(const std::vector<std::string>& numbers) {
    std::string text =
        with(small_site(), "labour: 0.2, plant: 4,", "labour: " + numbers[1] + ", plant: " + numbers[2] + ",");
    text = with(text, "methods: [{id: open cut", "difficulty: " + numbers[0] + ", methods: [{id: open cut");
    text = with(text, "length: 61.5",
                "length: " + numbers[3] + ", charges: [{what: crossing, amount: " + numbers[4] + "}]");
    text = with(text, "price: 1.30", "price: " + numbers[5]);
    return with(text, "installer-rate: 48", "installer-rate: " + numbers[6]);
}

/// What prices and lengths a scenario has.
std::string figures(const Scenario& s) {
    const OpeningMethod& method = s.grounds[0].methods[0];
    std::string text = std::to_string(method.labour_hours_per_metre);
    for (const std::int64_t number :
         {method.plant_per_metre.thousandths(), s.segments[2].length.millimetres(),
          s.segments[2].charges.empty() ? 0 : s.segments[2].charges[0].amount.minor(),
          s.catalogue.cables[0].price_per_metre.thousandths(), s.labour.installer_rate.thousandths(),
          s.labour.groundworks_rate.thousandths(), s.catalogue.optics[0].price_per_end.thousandths(),
          s.segments[0].length.millimetres()})
        text += " " + std::to_string(number);
    return text;
}

std::string said_of(const std::string& passage, const std::string& replacement) {
    return said(read_text(with(small_site(), passage, replacement)));
}

}  // namespace

TEST_CASE("ranges are read, and the plan is made with their likely values") {
    const LoadedSite site = read_text(open_site());
    CHECK(said(site).empty());
    REQUIRE(site.varying);
    const auto& values = site.varying->values();
    REQUIRE(values.size() == 7);
    CHECK(values[0].key == "grounds[grass].difficulty");
    CHECK(values[0].group == "digging");
    CHECK(values[1].key == "grounds[grass].methods[open cut].labour");
    CHECK(values[2].range.likely == 4.5);
    CHECK(values[3].key == "map.segments[j-b].length");
    CHECK(values[4].key == "map.segments[].charges[crossing].amount");
    CHECK(values[5].range.shape == RangeShape::pert);
    CHECK(values[6].range.low < 40);
    CHECK(site.varying->lengths_vary());
    CHECK(figures(*site.scenario) ==
          figures(*read_text(settled_site({"1", "0.2", "4.5", "61.5", "200", "1.3", "48"})).scenario));
    CHECK(site.scenario->note == "7 values of the site file are ranges; the likely value counts here.");
}

TEST_CASE("a site with values set is the site of a file with these numbers in it") {
    const LoadedSite site = read_text(open_site());
    REQUIRE(site.varying);
    const std::vector<std::vector<std::string>> draws = {{"1", "0.1", "3", "60", "100", "1", "37"},
                                                         {"2.5", "0.31", "5.25", "71.125", "233", "1.75", "55.5"},
                                                         {"1", "0.2", "4.5", "61.5", "200", "1.3", "48"}};
    for (const std::vector<std::string>& draw : draws) {
        std::vector<double> numbers;
        for (const std::string& number : draw)
            numbers.push_back(std::stod(number));
        Scenario scenario = *site.scenario;
        site.varying->set(numbers, scenario);
        CHECK(figures(scenario) == figures(*read_text(settled_site(draw)).scenario));
    }
}

TEST_CASE("ranges of a site in feet are in feet") {
    const auto in_feet = [](const std::string& text) {
        return with(text, "currency: EUR", "units: feet\ncurrency: EUR");
    };
    const LoadedSite site = read_text(in_feet(open_site()));
    CHECK(said(site).empty());
    REQUIRE(site.varying);
    CHECK(site.varying->values()[3].unit == "ft");
    CHECK(site.varying->lengths_vary());
    Scenario scenario = *site.scenario;
    site.varying->set(std::vector<double>{1, 0.15, 5, 75, 100, 1.5, 50}, scenario);
    const LoadedSite settled = read_text(in_feet(settled_site({"1", "0.15", "5", "75", "100", "1.5", "50"})));
    CHECK(figures(scenario) == figures(*settled.scenario));
}

TEST_CASE("values in force say what a range is") {
    const LoadedSite site = read_text(open_site());
    const auto value = [&](const std::string& key) {
        const auto found =
            std::find_if(site.values.begin(), site.values.end(), [&](const auto& v) { return v.key == key; });
        return found == site.values.end() ? std::string() : found->value;
    };
    CHECK(value("grounds[grass].methods[open cut].labour") == "0.1 to 0.4, likely 0.2, triangular, group digging");
    CHECK(value("grounds[grass].methods[open cut].plant") == "3 to 6, all as likely");
    CHECK(value("grounds[grass].difficulty") == "2.5 with a chance of 0.3, else 1, group digging");
    CHECK(value("catalogue.cables[cable-12].price") == "1 to 2, likely 1.3, pert");
}

TEST_CASE("a ground that is twice as difficult costs twice as much to open") {
    const Scenario easy = *read_text(small_site()).scenario;
    const Scenario hard = *read_text(with(small_site(), "grass: {methods", "grass: {difficulty: 2, methods")).scenario;
    const OpeningMethod& before = easy.grounds[0].methods[0];
    const OpeningMethod& after = hard.grounds[0].methods[0];
    CHECK(after.labour_hours_per_metre == 2 * before.labour_hours_per_metre);
    CHECK(after.plant_per_metre.thousandths() == 2 * before.plant_per_metre.thousandths());
    CHECK(after.pull_hours_per_metre == before.pull_hours_per_metre);
}

TEST_CASE("mistakes in a range are all told") {
    const std::string all = said_of("plant: 4", "plant: {low: 9, likely: 5, high: 4}");
    CHECK(all.find("low 9 is above likely 5; expected the smaller figure first") != std::string::npos);
    CHECK(all.find("likely 5 is above high 4") != std::string::npos);
    CHECK(said_of("plant: 4", "plant: {low: 3, hihg: 5}").find("unknown key 'hihg' in a range; expected one of low") !=
          std::string::npos);
    CHECK(said_of("plant: 4", "plant: {low: 3}").find("key 'high' is missing in a range") != std::string::npos);
    CHECK(said_of("plant: 4", "plant: {chance: 0.2, then: 9}").find("key 'otherwise' is missing in a range") !=
          std::string::npos);
    CHECK(said_of("plant: 4", "plant: {chance: 0.2, otherwise: 3, then: 9, low: 2}")
              .find("key 'low' in a range with a chance") != std::string::npos);
    CHECK(said_of("plant: 4", "plant: {chance: 1.2, otherwise: 3, then: 9}").find("chance is '1.2'") !=
          std::string::npos);
    CHECK(said_of("plant: 4", "plant: {low: -3, high: 9}").find("plant would be -3; expected a number from 0") !=
          std::string::npos);
    CHECK(said_of("plant: 4", "plant: {low: 3, likely: 3, high: 9, tails: 10}").find("a likely figure at an end") !=
          std::string::npos);
    CHECK(said_of("plant: 4", "plant: {low: 3, likely: 4, high: 9, tails: 10, shape: pert}")
              .find("tails in a range of shape pert") != std::string::npos);
    CHECK(said_of("plant: 4", "plant: {}").find("key 'low' is missing") != std::string::npos);
}

TEST_CASE("ends that tails put below what a value may be are refused") {
    CHECK(said_of("plant: 4", "plant: {low: 1, likely: 4, high: 30, tails: 40}").find("plant would be -") !=
          std::string::npos);
}

TEST_CASE("a range may not stand where a count, an id, a depth or a rule belongs") {
    for (const auto& [passage, key] :
         {std::pair("count: 2", "count"), {"depth: 0.6", "depth"}, {"strands: 12", "strands"}}) {
        const std::string name(key);
        const std::string text = said_of(passage, name + ": {low: 1, high: 2}");
        CAPTURE(text);
        CHECK(text.find(name + " is a mapping") != std::string::npos);
    }
    CHECK(said_of("depth: 0.6", "depth: {low: 1, high: 2}").find("a range may not stand here") != std::string::npos);
    CHECK(said_of("id: a, at", "id: {low: 1, high: 2}, at").find("id is a mapping") != std::string::npos);
}

TEST_CASE("a value can be set by its key, given or not, and what is wrong with it is told") {
    const LoadedSite site = read_site({"site.yaml", small_site()}, loader_of({}), Varying::always);
    REQUIRE(site.varying);
    Scenario scenario = *site.scenario;
    CHECK(site.varying->set_keys({{"labour.installer-rate", 99}}, scenario).empty());
    CHECK(scenario.labour.installer_rate == UnitPrice::from_minor(9900));
    CHECK(site.varying->set_keys({{"rules.slack.coil", 12}}, scenario).empty());
    CHECK(scenario.rules.slack.coil_per_end == Length::from_metres(12));
    CHECK(site.varying->set_keys({{"grounds[grass].methods[open cut].plant", 8}}, scenario).empty());
    CHECK(scenario.grounds[0].methods[0].plant_per_metre == UnitPrice::from_minor(800));
    const Diagnostics problems = site.varying->set_keys({{"rules.hop-limit", 2.5}}, scenario);
    REQUIRE(problems.size() == 1);
    CHECK(to_text(problems[0]).find("hop-limit would be 2.5; expected a whole number") != std::string::npos);
    CHECK(scenario.rules.hop_limit == site.scenario->rules.hop_limit);
    CHECK_FALSE(site.varying->set_keys({{"labour.installer-rate", -1}}, scenario).empty());
    CHECK_FALSE(read_text(small_site()).varying);
}

TEST_CASE("high ends that make sums too large to count are refused") {
    CHECK(said_of("plant: 4", "plant: {low: 4, high: 999999999}").empty());
    CHECK(said(read_text(with(with(small_site(), "plant: 4", "plant: {low: 4, high: 999999999}"), "length: 61.5",
                              "length: {low: 1, high: 999999}")))
              .find("ranges whose high ends make sums of money that could grow too large") != std::string::npos);
}

TEST_CASE("grounds of a map with areas may be ranges, also where overlays make them dearer") {
    const std::string areas =
        "  areas:\n    - {id: roots, use: overlay, extra-per-length: 2, border: [[15, 60], [40, 60], [40, 80], [15, "
        "80]]}\ngrounds:\n";
    const std::string text = with(small_site(), "grounds:\n", areas);
    const LoadedSite plain = read_text(text);
    CHECK(said(plain).empty());
    const LoadedSite site = read_text(with(text, "plant: 4", "plant: {low: 3, likely: 4, high: 9}"));
    CHECK(said(site).empty());
    REQUIRE(site.varying);
    REQUIRE(site.scenario->grounds.size() == 2);
    Scenario scenario = *site.scenario;
    site.varying->set(std::vector<double>{8}, scenario);
    const Scenario settled = *read_text(with(text, "plant: 4", "plant: 8")).scenario;
    REQUIRE(scenario.grounds.size() == settled.grounds.size());
    for (std::size_t g = 0; g < settled.grounds.size(); ++g) {
        CHECK(scenario.grounds[g].id == settled.grounds[g].id);
        CHECK(scenario.grounds[g].methods[0].plant_per_metre == settled.grounds[g].methods[0].plant_per_metre);
        CHECK(scenario.grounds[g].methods[0].material_per_metre == settled.grounds[g].methods[0].material_per_metre);
    }
}
