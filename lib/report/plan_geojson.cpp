#include "report/plan_geojson.hpp"

#include "report/json_writer.hpp"
#include "report/plan_features.hpp"

namespace spadework::report {

namespace {

using Shape = JsonWriter::Shape;

void write_position(JsonWriter& json, const Position& at) {
    json.begin_list(Shape::one_line);
    json.exact(at.x);
    json.exact(at.y);
    json.end();
}

void write_point(JsonWriter& json, const Position& at) {
    json.begin_object(Shape::one_line);
    json.key("type").text("Point");
    json.key("coordinates");
    write_position(json, at);
    json.end();
}

/// Nothing where the line has no length.
void write_line(JsonWriter& json, const std::vector<Position>& line) {
    if (line.size() < 2) {
        json.null();
        return;
    }
    json.begin_object(Shape::one_line);
    json.key("type").text("LineString");
    json.key("coordinates").begin_list(Shape::one_line);
    for (const Position& at : line)
        write_position(json, at);
    json.end();
    json.end();
}

struct FactWriter {
    JsonWriter& json;
    const Currency& currency;

    void operator()(const std::string& text) const { json.text(text); }
    void operator()(std::int64_t count) const { json.whole(count); }
    void operator()(Length length) const { json.metres(length); }
    void operator()(Money money) const { json.money(money, currency); }
};

void write_feature(JsonWriter& json, const PlanFeature& feature, const Currency& currency) {
    json.begin_object();
    json.key("type").text("Feature");
    json.key("geometry");
    if (feature.group == FeatureGroup::places) {
        write_point(json, feature.points.front());
    } else {
        write_line(json, feature.points);
    }
    json.key("properties").begin_object(Shape::one_line);
    json.key("kind").text(feature.kind);
    for (const Fact& fact : feature.facts) {
        json.key(fact.name);
        std::visit(FactWriter{json, currency}, fact.value);
    }
    json.end();
    json.end();
}

}  // namespace

std::string plan_geojson(const Scenario& scenario, const LayoutResult& result) {
    JsonWriter json;
    json.begin_object();
    json.key("type").text("FeatureCollection");
    json.key("site").text(scenario.name);
    json.key("layout").text(id_of(result.plan->layout));
    json.key("currency").text(scenario.currency.code);
    if (scenario.coordinates == CoordinateSystem::plane_metres) {
        json.key("note").text(
            "Positions are metres on a local plan, x to the east and y to the north, not longitude and latitude.");
    }
    json.key("features").begin_list();
    for (const PlanFeature& feature : plan_features(scenario, result))
        write_feature(json, feature, scenario.currency);
    json.end();
    json.end();
    return json.finished();
}

}  // namespace spadework::report
