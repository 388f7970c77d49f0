#include "doubt/swept_site.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "routing/distances.hpp"
#include "routing/network.hpp"
#include "scenario/money_range.hpp"

namespace spadework {

namespace {

constexpr double longest_segment_metres = 1e6;
constexpr int most_links = 1000;
constexpr int most_strands = 1000;

SweptSite wrong(const SweptInput& input, double value, std::string wanted) {
    SweptSite site;
    site.diagnostics.push_back(
        {{}, Severity::error, fmt::format("{} would be {}", input.key, value), std::move(wanted), {}});
    return site;
}

/// The value as a whole number within limits.
std::optional<int> whole(double value, int least, int most) {
    if (value != std::floor(value) || value < least || value > most) return std::nullopt;
    return static_cast<int>(value);
}

SweptSite at_distance(Scenario scenario, const SweptInput& input, double times) {
    for (Segment& segment : scenario.segments) {
        const double metres = segment.length.metres() * times;
        if (!(times > 0) || metres > longest_segment_metres)
            return wrong(input, times, "a number above 0 that leaves every segment within 1000 km");
        segment.length = std::max(Length::from_millimetres(1), Length::from_metres(metres));
    }
    if (!totals_can_be_counted(scenario)) return wrong(input, times, "a smaller number, for sums that can be counted");
    return {std::move(scenario), {}};
}

SweptSite at_buildings(Scenario scenario, const SweptInput& input, double value) {
    const auto count = whole(value, 1, static_cast<int>(scenario.buildings.size()));
    if (!count) return wrong(input, value, fmt::format("a whole number from 1 to {}", scenario.buildings.size()));
    const Network network = network_of(scenario);
    const ShortestWays ways = shortest_ways(network, scenario.hub.place);
    std::vector<std::pair<Length, std::size_t>> by_way;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const auto place = static_cast<std::size_t>(scenario.buildings[b].place);
        by_way.emplace_back(ways.length[place].value_or(Length()), b);
    }
    std::stable_sort(by_way.begin(), by_way.end());
    std::vector<std::size_t> kept;
    for (int i = 0; i < *count; ++i)
        kept.push_back(by_way[static_cast<std::size_t>(i)].second);
    std::sort(kept.begin(), kept.end());
    std::vector<Building> buildings;
    for (const std::size_t b : kept)
        buildings.push_back(std::move(scenario.buildings[b]));
    scenario.buildings = std::move(buildings);
    return {std::move(scenario), {}};
}

SweptSite at_links(Scenario scenario, const SweptInput& input, double value) {
    const auto count = whole(value, 1, most_links);
    if (!count) return wrong(input, value, fmt::format("a whole number from 1 to {}", most_links));
    for (Building& building : scenario.buildings) {
        LinkDemand fastest = building.links.front();
        for (const LinkDemand& link : building.links) {
            if (fastest.rate < link.rate) fastest = link;
        }
        fastest.count = *count;
        building.links = {fastest};
    }
    if (!totals_can_be_counted(scenario)) return wrong(input, value, "a smaller number, for sums that can be counted");
    return {std::move(scenario), {}};
}

SweptSite at_spare_strands(Scenario scenario, const SweptInput& input, double value) {
    const auto count = whole(value, 0, most_strands);
    if (!count) return wrong(input, value, fmt::format("a whole number from 0 to {}", most_strands));
    scenario.rules.spare.trunk_spare_least = *count;
    return {std::move(scenario), {}};
}

bool is_word(const std::string& key) {
    return std::find(sweep_words().begin(), sweep_words().end(), key) != sweep_words().end();
}

SweptSite at_word(Scenario scenario, const SweptInput& input, double value) {
    if (input.key == "distance") return at_distance(std::move(scenario), input, value);
    if (input.key == "buildings") return at_buildings(std::move(scenario), input, value);
    if (input.key == "links") return at_links(std::move(scenario), input, value);
    return at_spare_strands(std::move(scenario), input, value);
}

}  // namespace

double SweptInput::at(int number) const {
    if (points < 2) return from;
    const double value = from + (to - from) * number / (points - 1);
    return whole ? std::round(value) : value;
}

const std::vector<std::string>& sweep_words() {
    static const std::vector<std::string> words = {"distance", "buildings", "links", "spare-strands"};
    return words;
}

bool moves_prices_alone(const SweptInput& input, const Scenario& scenario) {
    if (input.key == "rules.contingency" || input.key == "rules.tax" || input.key.ends_with(".difficulty")) return true;
    const std::string& unit = input.unit;
    return unit.starts_with(scenario.currency.code) || unit.starts_with("hours") || unit == "minutes";
}

bool narrows_plans(const SweptInput& input) {
    return input.key == "spare-strands" || input.key.starts_with("rules.spare.");
}

SweptSite site_at(const Scenario& scenario, const site_file::VaryingSite& site, const std::vector<SweptInput>& inputs,
                  const std::vector<double>& values) {
    SweptSite swept{scenario, {}};
    std::vector<std::pair<std::string, double>> keys;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        if (!is_word(inputs[i].key)) keys.emplace_back(inputs[i].key, values[i]);
    }
    if (!keys.empty()) swept.diagnostics = site.set_keys(keys, *swept.scenario);
    for (std::size_t i = 0; i < inputs.size() && swept.diagnostics.empty(); ++i) {
        if (is_word(inputs[i].key)) swept = at_word(std::move(*swept.scenario), inputs[i], values[i]);
    }
    if (!swept.diagnostics.empty()) swept.scenario.reset();
    return swept;
}

}  // namespace spadework
