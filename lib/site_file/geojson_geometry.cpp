#include "site_file/geojson_geometry.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "site_file/plain_number.hpp"

namespace spadework::site_file {

namespace {

constexpr std::string_view geometry_types[] = {"Point",   "MultiPoint",   "LineString",        "MultiLineString",
                                               "Polygon", "MultiPolygon", "GeometryCollection"};

/// At the same place to 10^-7 degree, about 1 cm.
bool nearly_same(const Position& a, const Position& b) {
    constexpr double cells_per_degree = 1e7;
    return std::llround(a.x * cells_per_degree) == std::llround(b.x * cells_per_degree) &&
           std::llround(a.y * cells_per_degree) == std::llround(b.y * cells_per_degree);
}

/// Reads the coordinates of one geometry. Every method reports what is wrong and returns what there is.
class GeometryReader {
public:
    GeometryReader(const Document& document, OutOfRange& out_of_range, Reading& reading)
        : document_(document), out_of_range_(out_of_range), reading_(reading) {}

    void read(NodeId geometry) {
        std::vector<NodeId> waiting = {geometry};
        while (!waiting.empty()) {
            const NodeId node = waiting.back();
            waiting.pop_back();
            const std::string type = type_of(node);
            if (type.empty()) continue;
            if (type != "GeometryCollection") {
                read_simple(node, type);
                continue;
            }
            const std::vector<NodeId> members = list(document_.find(node, "geometries"), node, "geometries");
            waiting.insert(waiting.end(), members.rbegin(), members.rend());
        }
    }

    std::vector<GeometryPart> parts;

private:
    std::string type_of(NodeId node) {
        const NodeId type = document_.find(node, "type");
        if (type != no_node && is_geometry_type(document_.at(type).text)) return document_.at(type).text;
        reading_.error(document_.position(type == no_node ? node : type),
                       type == no_node ? "a geometry without a type"
                                       : fmt::format("geometry type {}", description(document_.at(type))),
                       fmt::format("one of {}", fmt::join(geometry_types, ", ")));
        return {};
    }

    void read_simple(NodeId node, const std::string& type) {
        const NodeId coordinates = document_.find(node, "coordinates");
        if (type == "Point") {
            if (const auto at = position(coordinates, node)) add(GeometryPart::Kind::point, {{*at}}, node);
        } else if (type == "MultiPoint") {
            for (const NodeId item : list(coordinates, node, "coordinates")) {
                if (const auto at = position(item, node)) add(GeometryPart::Kind::point, {{*at}}, item);
            }
        } else if (type == "LineString") {
            read_line(coordinates, node);
        } else if (type == "MultiLineString") {
            for (const NodeId item : list(coordinates, node, "coordinates"))
                read_line(item, node);
        } else {
            read_area(coordinates, node, type == "MultiPolygon");
        }
    }

    void add(GeometryPart::Kind kind, std::vector<std::vector<Position>> rings, NodeId node) {
        parts.push_back({kind, std::move(rings), node, {}});
    }

    [[nodiscard]] std::size_t count_problems() const {
        return reading_.diagnostics.size() + reading_.not_listed + out_of_range_.count;
    }

    void read_line(NodeId coordinates, NodeId geometry) {
        const std::vector<NodeId> items = list(coordinates, geometry, "coordinates");
        const std::size_t problems = count_problems();
        std::vector<Position> points = positions(items, geometry);
        points.erase(std::unique(points.begin(), points.end(), nearly_same), points.end());
        if (points.size() >= 2) {
            add(GeometryPart::Kind::line, {std::move(points)}, coordinates);
        } else if (count_problems() == problems) {
            const SourcePosition where = document_.position(coordinates == no_node ? geometry : coordinates);
            reading_.error(where, items.size() < 2 ? "a line of fewer than two positions" : "a line without length",
                           "two or more positions apart from each other");
        }
    }

    /// The closed rings behind the first.
    std::vector<std::vector<Position>> read_holes(const std::vector<NodeId>& rings, NodeId geometry) {
        std::vector<std::vector<Position>> holes;
        for (std::size_t i = 1; i < rings.size(); ++i) {
            std::vector<Position> ring = positions(list(rings[i], geometry, "ring"), geometry);
            if (ring.size() < 4 || !(ring.front() == ring.back())) continue;
            ring.pop_back();
            holes.push_back(std::move(ring));
        }
        return holes;
    }

    void read_area(NodeId coordinates, NodeId geometry, bool several) {
        std::vector<NodeId> polygons = {coordinates};
        if (several) polygons = list(coordinates, geometry, "coordinates");
        std::vector<std::vector<Position>> rings;
        std::vector<std::vector<std::vector<Position>>> holes;
        for (const NodeId polygon : polygons) {
            const std::vector<NodeId> all = list(polygon, geometry, "coordinates");
            if (all.empty()) continue;
            const std::size_t problems = count_problems();
            const std::vector<NodeId> items = list(all.front(), geometry, "ring");
            std::vector<Position> ring = positions(items, geometry);
            if (count_problems() != problems) continue;
            const bool closed = items.size() >= 4 && ring.size() >= 2 && ring.front() == ring.back();
            if (!closed) {
                reading_.error(document_.position(all.front()), "a ring that is not closed",
                               "four or more positions, the last like the first (RFC 7946 section 3.1.6)");
                continue;
            }
            ring.pop_back();
            rings.push_back(std::move(ring));
            holes.push_back(read_holes(all, geometry));
        }
        if (rings.empty()) return;
        add(GeometryPart::Kind::area, std::move(rings), geometry);
        parts.back().holes = std::move(holes);
    }

    std::vector<NodeId> list(NodeId node, NodeId geometry, std::string_view what) {
        if (node != no_node && document_.at(node).kind == NodeKind::sequence) return document_.children(node);
        reading_.error(document_.position(node == no_node ? geometry : node),
                       node == no_node ? fmt::format("a geometry without {}", what)
                                       : fmt::format("{} is {}", what, description(document_.at(node))),
                       "a list");
        return {};
    }

    std::vector<Position> positions(const std::vector<NodeId>& items, NodeId geometry) {
        std::vector<Position> points;
        for (const NodeId item : items) {
            const auto at = position(item, geometry);
            if (at && (points.empty() || !(points.back() == *at))) points.push_back(*at);
        }
        return points;
    }

    std::optional<Position> position(NodeId node, NodeId geometry) {
        if (node == no_node || document_.at(node).kind != NodeKind::sequence) {
            reading_.error(document_.position(node == no_node ? geometry : node),
                           node == no_node ? "a geometry without coordinates"
                                           : fmt::format("position is {}", description(document_.at(node))),
                           "[longitude, latitude]");
            return std::nullopt;
        }
        const NodeId x = document_.at(node).first_child;
        const NodeId y = x == no_node ? no_node : document_.at(x).next;
        const auto longitude = number(x);
        const auto latitude = number(y);
        if (!longitude || !latitude) {
            reading_.error(document_.position(node), "a position that is not two numbers", "[longitude, latitude]");
            return std::nullopt;
        }
        if (std::abs(*longitude) > 180 || std::abs(*latitude) > 90) {
            if (out_of_range_.count++ == 0) {
                out_of_range_.first = document_.position(node);
                out_of_range_.x = *longitude;
                out_of_range_.y = *latitude;
            }
            return std::nullopt;
        }
        return Position{*longitude, *latitude};
    }

    std::optional<double> number(NodeId node) {
        if (node == no_node || document_.at(node).kind != NodeKind::scalar || document_.at(node).quoted) {
            return std::nullopt;
        }
        const PlainNumber number = plain_number(document_.at(node).text, Syntax::json);
        return number.problem.empty() ? std::optional<double>(number.value) : std::nullopt;
    }

    const Document& document_;
    OutOfRange& out_of_range_;
    Reading& reading_;
};

}  // namespace

bool is_geometry_type(std::string_view type) {
    return std::find(std::begin(geometry_types), std::end(geometry_types), type) != std::end(geometry_types);
}

std::vector<GeometryPart> read_geometry(const Document& document, NodeId geometry, OutOfRange& out_of_range,
                                        Reading& reading) {
    GeometryReader reader(document, out_of_range, reading);
    reader.read(geometry);
    return std::move(reader.parts);
}

}  // namespace spadework::site_file
