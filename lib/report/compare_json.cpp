#include "report/compare_json.hpp"

#include "report/explanation_report.hpp"
#include "report/json_writer.hpp"
#include "report/layout_json.hpp"

namespace spadework::report {

namespace {

/// Members of the current object.
void write_comparison(JsonWriter& json, const Scenario& scenario, const Comparison& comparison, std::uint64_t seed) {
    write_site(json, scenario);
    json.key("length_unit").text("m");
    json.key("seed").unsigned_whole(seed);
    json.key("cheapest");
    if (comparison.cheapest) {
        json.text(id_of(comparison.layouts[static_cast<std::size_t>(*comparison.cheapest)].layout));
    } else {
        json.null();
    }
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
    JsonWriter json;
    json.begin_object();
    write_comparison(json, scenario, comparison, seed);
    json.key("explanation");
    write_explanation(json, scenario, explanation);
    json.end();
    return json.finished();
}

}  // namespace spadework::report
