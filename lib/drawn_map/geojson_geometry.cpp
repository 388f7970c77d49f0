#include "drawn_map/geojson_geometry.hpp"

#include <algorithm>

#include "drawn_map/plain_text.hpp"

namespace spadework::drawn_map {

namespace {

constexpr std::string_view geometry_types[] = {"Point",   "MultiPoint",   "LineString",        "MultiLineString",
                                               "Polygon", "MultiPolygon", "GeometryCollection"};

using Line = std::vector<Position>;
using Rings = std::vector<Line>;

class GeometryReader {
public:
    GeometryReader(const JsonTree& tree, const FeatureFacts& facts, MapBuilder& map)
        : tree_(tree), facts_(facts), map_(map) {}

    void read(JsonNode geometry) {
        if (tree_.kind(geometry) != JsonKind::object) {
            map_.error(tree_.begin(geometry), "a geometry that is not an object",
                       "{\"type\": …, \"coordinates\": […]}");
            return;
        }
        const JsonNode type = tree_.find(geometry, "type");
        if (!is_geometry_type(tree_.text(type))) {
            map_.error(tree_.begin(type == no_json_node ? geometry : type),
                       type == no_json_node ? "a geometry without a type" : "geometry type " + shown_value(tree_, type),
                       "Point, LineString, Polygon, MultiPoint, MultiLineString, MultiPolygon or GeometryCollection");
            return;
        }
        if (tree_.text(type) == "GeometryCollection") return read_collection(geometry);
        const JsonNode coordinates = tree_.find(geometry, "coordinates");
        if (coordinates == no_json_node) {
            map_.error(tree_.begin(geometry), "a geometry without coordinates", "\"coordinates\": […]");
            return;
        }
        read_coordinates(tree_.text(type), coordinates);
    }

private:
    void read_collection(JsonNode geometry) {
        const JsonNode parts = tree_.find(geometry, "geometries");
        if (parts == no_json_node || tree_.kind(parts) != JsonKind::list) {
            map_.error(tree_.begin(geometry), "a GeometryCollection without a list of geometries",
                       "\"geometries\": […]");
            return;
        }
        for (JsonNode part = tree_.first_child(parts); part != no_json_node; part = tree_.next(part))
            read(part);
    }

    void read_coordinates(std::string_view type, JsonNode node) {
        if (!is_list(node)) return;
        if (tree_.first_child(node) == no_json_node) {
            map_.leave_out("geometries without coordinates");
        } else if (type == "Point") {
            add_point(node);
        } else if (type == "MultiPoint") {
            each(node, [this](JsonNode point) { add_point(point); });
        } else if (type == "LineString") {
            add_line(node);
        } else if (type == "MultiLineString") {
            each(node, [this](JsonNode line) { add_line(line); });
        } else if (type == "Polygon") {
            add_polygon(node);
        } else {
            each(node, [this](JsonNode polygon) { add_polygon(polygon); });
        }
    }

    template <typename Take>
    void each(JsonNode list, Take take) {
        for (JsonNode item = tree_.first_child(list); item != no_json_node; item = tree_.next(item))
            take(item);
    }

    bool is_list(JsonNode node) {
        if (tree_.kind(node) == JsonKind::list) return true;
        map_.error(tree_.begin(node), "coordinates " + shown_value(tree_, node) + ", which are no list",
                   "a list in [ ]");
        return false;
    }

    void add_point(JsonNode node) {
        Position at;
        if (read_position(node, at)) map_.add_point(facts_, at);
    }

    void add_line(JsonNode node) {
        Line line;
        if (!read_line(node, line)) return;
        if (line.size() < 2) {
            map_.error(tree_.begin(node), "a line of one position", "at least two (RFC 7946 section 3.1.4)");
            return;
        }
        map_.add_line(facts_, line);
    }

    void add_polygon(JsonNode node) {
        if (!is_list(node)) return;
        Rings rings;
        bool whole = true;
        each(node, [&](JsonNode ring) {
            if (read_line(ring, rings.emplace_back())) {
                whole = is_ring(ring, rings.back()) && whole;
            } else {
                whole = false;
            }
        });
        if (whole) map_.add_area(facts_, std::move(rings));
    }

    /// Four positions and more, the last the same as the first: RFC 7946 section 3.1.6. One that only does not end
    /// where it begins can still be used.
    bool is_ring(JsonNode node, const Line& ring) {
        if (ring.size() >= 4 || (ring.size() == 3 && ring.front() != ring.back())) return true;
        map_.error(tree_.begin(node), "a ring of fewer than four positions",
                   "four or more, the last the same as the first (RFC 7946 section 3.1.6)");
        return false;
    }

    /// An empty list is left to those who count positions.
    bool read_line(JsonNode node, Line& line) {
        if (!is_list(node)) return false;
        bool whole = true;
        each(node, [&](JsonNode item) { whole = read_position(item, line.emplace_back()) && whole; });
        return whole;
    }

    bool read_position(JsonNode node, Position& at) {
        double numbers[2] = {};
        int count = 0;
        bool altitude = false;
        bool plain = tree_.kind(node) == JsonKind::list;
        for (JsonNode item = plain ? tree_.first_child(node) : no_json_node; item != no_json_node;
             item = tree_.next(item), ++count) {
            plain = plain && tree_.kind(item) == JsonKind::number;
            if (count < 2) numbers[count] = tree_.number(item);
            altitude = altitude || (count == 2 && tree_.number(item) != 0);
        }
        if (!plain || count < 2) {
            map_.error(tree_.begin(node), "position " + shown_value(tree_, node) + ", which is not two numbers or more",
                       "[longitude, latitude] (RFC 7946 section 3.1.1)");
            return false;
        }
        if (altitude) map_.leave_out("altitudes");
        at = {numbers[0], numbers[1]};
        map_.see(at, tree_.begin(node));
        return true;
    }

    const JsonTree& tree_;
    const FeatureFacts& facts_;
    MapBuilder& map_;
};

}  // namespace

bool is_geometry_type(std::string_view type) {
    return std::ranges::find(geometry_types, type) != std::end(geometry_types);
}

void add_geometry(const JsonTree& tree, JsonNode geometry, const FeatureFacts& facts, MapBuilder& map) {
    GeometryReader(tree, facts, map).read(geometry);
}

}  // namespace spadework::drawn_map
