#include "report/compare_json.hpp"

#include "report/explanation_report.hpp"
#include "report/growth_report.hpp"
#include "report/json_writer.hpp"
#include "report/layout_json.hpp"

namespace spadework::report {

namespace {

void write_open_ground(JsonWriter& json, const Scenario& scenario) {
    if (scenario.areas.empty()) return;
    const LaidOutGround& laid = scenario.open_ground;
    json.key("open_ground").begin_object();
    json.key("areas").whole(static_cast<std::int64_t>(scenario.areas.size()));
    json.key("spacing").metres(laid.spacing);
    json.key("directions").whole(laid.directions);
    json.key("longest_detour_percent").number(100 * laid.longest_detour, 2);
    json.key("points").whole(laid.points);
    json.key("segments").whole(laid.lines);
    json.key("straight_lines").whole(static_cast<std::int64_t>(laid.straight.size()));
    json.key("segments_cut").whole(laid.segments_cut);
    json.key("segments_barred").begin_list();
    for (const BarredSegment& barred : laid.barred) {
        json.begin_object();
        json.key("id").text(barred.id);
        json.key("reason").text(barred.reason);
        json.end();
    }
    json.end();
    json.end();
}

/// Members of the current object.
void write_comparison(JsonWriter& json, const Scenario& scenario, const Comparison& comparison, std::uint64_t seed) {
    write_site(json, scenario);
    json.key("length_unit").text("m");
    json.key("seed").unsigned_whole(seed);
    write_open_ground(json, scenario);
    write_or_null(json, "cheapest", comparison.cheapest,
                  [&](auto layout) { json.text(id_of(comparison.layouts[static_cast<std::size_t>(layout)].layout)); });
    json.key("verdict").text(comparison.verdict);
    json.key("layouts").begin_list();
    for (const LayoutResult& layout : comparison.layouts)
        write_layout(json, scenario, layout);
    json.end();
}

}  // namespace

std::string compare_json(const Scenario& scenario, const Comparison& comparison, std::uint64_t seed) {
    JsonWriter json;
    json.begin_object();
    write_comparison(json, scenario, comparison, seed);
    json.end();
    return json.finished();
}

std::string compare_json(const Scenario& scenario, const Comparison& comparison, std::uint64_t seed,
                         const std::optional<Explanation>& explanation) {
    return compare_json(scenario, comparison, seed, BesideComparison{&explanation, nullptr});
}

std::string compare_json(const Scenario& scenario, const Comparison& comparison, std::uint64_t seed,
                         const BesideComparison& beside) {
    JsonWriter json;
    json.begin_object();
    write_comparison(json, scenario, comparison, seed);
    if (beside.explanation != nullptr) {
        json.key("explanation");
        write_explanation(json, scenario, *beside.explanation);
    }
    if (beside.growth != nullptr) {
        json.key("growth");
        write_growth(json, scenario, *beside.growth);
    }
    json.end();
    return json.finished();
}

}  // namespace spadework::report
