#include "report/plan_geojson.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <vector>

#include "comparison/metres.hpp"
#include "report/json_writer.hpp"
#include "report/lookup.hpp"

namespace spadework::report {

namespace {

using Shape = JsonWriter::Shape;

/// A hundredth of a millimetre on the plan, or about a tenth of one in degrees.
constexpr int plane_digits = 5;
constexpr int degree_digits = 9;

class PlanWriter {
public:
    PlanWriter(const Scenario& scenario, const LayoutResult& result) : scenario_(scenario), plan_(*result.plan) {}

    std::string run() {
        json_.begin_object();
        json_.key("type").text("FeatureCollection");
        json_.key("site").text(scenario_.name);
        json_.key("layout").text(id_of(plan_.layout));
        json_.key("currency").text(scenario_.currency.code);
        if (scenario_.coordinates == CoordinateSystem::plane_metres) {
            json_.key("note").text(
                "Positions are metres on a local plan, x to the east and y to the north, not longitude and latitude.");
        }
        json_.key("features").begin_list();
        write_places();
        write_trenches();
        write_cables();
        json_.end();
        json_.end();
        return json_.finished();
    }

private:
    void position(const Position& at) {
        const int digits = scenario_.coordinates == CoordinateSystem::plane_metres ? plane_digits : degree_digits;
        json_.begin_list(Shape::one_line);
        json_.number(at.x, digits);
        json_.number(at.y, digits);
        json_.end();
    }

    /// Begins a feature and leaves its properties open.
    void begin_point(const Position& at, const char* kind) {
        begin_feature();
        json_.begin_object(Shape::one_line);
        json_.key("type").text("Point");
        json_.key("coordinates");
        position(at);
        json_.end();
        begin_properties(kind);
    }

    void begin_line(const std::vector<Position>& line, const char* kind) {
        begin_feature();
        if (line.size() < 2) {
            json_.null();
        } else {
            json_.begin_object(Shape::one_line);
            json_.key("type").text("LineString");
            json_.key("coordinates").begin_list(Shape::one_line);
            for (const Position& at : line)
                position(at);
            json_.end();
            json_.end();
        }
        begin_properties(kind);
    }

    void begin_feature() {
        json_.begin_object();
        json_.key("type").text("Feature");
        json_.key("geometry");
    }

    void begin_properties(const char* kind) {
        json_.key("properties").begin_object(Shape::one_line);
        json_.key("kind").text(kind);
    }

    void end_feature() {
        json_.end();
        json_.end();
    }

    void write_places() {
        std::set<PlaceIndex> named = {scenario_.hub.place};
        const Place& hub = place_at(scenario_, scenario_.hub.place);
        begin_point(hub.at, "hub");
        json_.key("id").text(hub.id);
        json_.key("name").text(hub.name);
        end_feature();
        for (const Building& building : scenario_.buildings) {
            named.insert(building.place);
            begin_point(place_at(scenario_, building.place).at, "building");
            json_.key("id").text(building.id);
            json_.key("name").text(building.name);
            json_.key("place").text(place_at(scenario_, building.place).id);
            end_feature();
        }
        for (const PlannedEnclosure& enclosure : plan_.enclosures) {
            named.insert(enclosure.place);
            write_enclosure(enclosure);
        }
        write_passed(named);
    }

    void write_enclosure(const PlannedEnclosure& enclosure) {
        const Place& place = place_at(scenario_, enclosure.place);
        begin_point(place.at, "enclosure");
        json_.key("place").text(place.id);
        json_.key("products").text(products_in_words(scenario_, enclosure));
        json_.key("adapters").whole(adapters_of(scenario_, enclosure));
        json_.key("strands").whole(trunk_strands(scenario_, plan_, enclosure));
        json_.key("serves").text(ids_of(scenario_, enclosure.serves, ", "));
        end_feature();
    }

    /// Ends of the segments in use that are not in `named`.
    void write_passed(const std::set<PlaceIndex>& named) {
        std::set<PlaceIndex> passed;
        for (const Step& step : plan_.trenches) {
            passed.insert(segment_at(scenario_, step.segment).from);
            passed.insert(segment_at(scenario_, step.segment).to);
        }
        for (const PlaceIndex index : passed) {
            if (named.contains(index)) continue;
            begin_point(place_at(scenario_, index).at, "place");
            json_.key("id").text(place_at(scenario_, index).id);
            end_feature();
        }
    }

    void write_trenches() {
        std::map<Step, int> cables;
        for (const PlannedCable& cable : plan_.cables) {
            for (const Step& step : cable.steps)
                ++cables[step];
        }
        for (const Step& step : plan_.trenches) {
            const Segment& segment = segment_at(scenario_, step.segment);
            const Way way = way_of(scenario_, step);
            begin_line(segment.polyline, is_dug(way.method->kind) ? "trench" : id_of(way.method->kind));
            json_.key("segment").text(segment.id);
            json_.key("ground").text(way.ground);
            json_.key("method").text(way.method->id);
            json_.key("depth_m").metres(way.method->depth);
            json_.key("length_m").metres(segment.length);
            json_.key("cost").money(way.opening, scenario_.currency);
            json_.key("cables").whole(cables[step]);
            end_feature();
        }
    }

    /// The cable's way as one line, each segment turned as it is passed.
    std::vector<Position> line_of(const PlannedCable& cable) const {
        std::vector<Position> line;
        PlaceIndex at = cable.from;
        for (const Step& step : cable.steps) {
            const Segment& segment = segment_at(scenario_, step.segment);
            std::vector<Position> part = segment.polyline;
            if (segment.from != at) std::reverse(part.begin(), part.end());
            at = segment.from == at ? segment.to : segment.from;
            const bool joins = !line.empty() && !part.empty() && line.back() == part.front();
            line.insert(line.end(), part.begin() + (joins ? 1 : 0), part.end());
        }
        return line;
    }

    void write_cables() {
        for (const PlannedCable& cable : plan_.cables) {
            begin_line(line_of(cable), "cable");
            json_.key("id").text(cable.id);
            json_.key("role").text(id_of(cable.role));
            json_.key("product").text(product_of(scenario_, cable).id);
            json_.key("strands").whole(product_of(scenario_, cable).strands);
            json_.key("from").text(place_at(scenario_, cable.from).id);
            json_.key("to").text(place_at(scenario_, cable.to).id);
            json_.key("route_m").metres(cable.lengths.route);
            json_.key("ordered_m").metres(cable.lengths.ordered);
            end_feature();
        }
    }

    const Scenario& scenario_;
    const Plan& plan_;
    JsonWriter json_;
};

}  // namespace

std::string plan_geojson(const Scenario& scenario, const LayoutResult& result) {
    return PlanWriter(scenario, result).run();
}

}  // namespace spadework::report
