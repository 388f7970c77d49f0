#include "site_file/geojson_map.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "geometry/geodesic.hpp"
#include "site_file/network_building.hpp"
#include "site_file/section_readers.hpp"

namespace spadework::site_file {

namespace {

/// Texts behind a key in every mapping of a list.
void collect_texts(const Document& document, NodeId list, std::string_view key, std::set<std::string>& texts) {
    for (const NodeId item : document.children(list)) {
        const NodeId text = document.find(item, key);
        if (text != no_node && document.at(text).kind == NodeKind::scalar) texts.insert(document.at(text).text);
    }
}

/// Names of the places that the sections on buildings and growth speak of.
std::set<std::string> named_places(const Fields& site) {
    const Document& document = site.document();
    std::set<std::string> names;
    const NodeId buildings = site.node("buildings");
    collect_texts(document, buildings, "place", names);
    for (const NodeId building : document.children(buildings)) {
        const NodeId id = document.find(building, "id");
        const bool stands_by_id = document.find(building, "place") == no_node && id != no_node;
        if (stands_by_id && document.at(id).kind == NodeKind::scalar) names.insert(document.at(id).text);
    }
    collect_texts(document, document.find(site.node("growth"), "buildings"), "place", names);
    return names;
}

std::vector<Position> all_points(const Features& features) {
    std::vector<Position> points;
    for (const LineFeature& line : features.lines)
        points.insert(points.end(), line.points.begin(), line.points.end());
    for (const SpotFeature& spot : features.spots) {
        for (const auto& ring : spot.rings)
            points.insert(points.end(), ring.begin(), ring.end());
    }
    return points;
}

class GeoJsonMap {
public:
    GeoJsonMap(Features features, const GeoJsonOptions& options, const Fields& site, Reading& reading, Draft& draft)
        : features_(std::move(features)),
          options_(options),
          site_(site),
          reading_(reading),
          draft_(draft),
          plane_(CoordinateSystem::wgs84_degrees, all_points(features_)),
          vertices_(vertices_of(features_.lines)),
          parts_(parts_of(features_.lines, vertices_)) {}

    void build() {
        index_spots();
        check_taken_names();
        if (!find_hub()) return;
        const EdgeSearch search(features_.lines, parts_.of_line, hub_part_, plane_);
        join_named_spots(search);
        join_taken_buildings(search);
        add_network(features_, vertices_, joined_, options_, reading_, draft_);
        settle_hub();
        add_taken_buildings();
        draft_.has_map = true;
    }

private:
    /// Spots by id, and by name where only one has it.
    void index_spots() {
        for (std::size_t i = 0; i < features_.spots.size(); ++i)
            spots_.add(features_.spots[i].id, static_cast<int>(i), features_.spots[i].where, reading_);
        for (std::size_t i = 0; i < features_.spots.size(); ++i) {
            if (features_.spots[i].name != features_.spots[i].id) {
                spots_.add_alias(features_.spots[i].name, static_cast<int>(i));
            }
        }
    }

    void check_taken_names() {
        for (std::size_t i = 0; i < options_.take.size(); ++i) {
            const int spot = spots_.find(options_.take[i], options_.take_positions[i], reading_);
            if (spot >= 0) taken_.push_back(static_cast<std::size_t>(spot));
        }
        if (!options_.take_all) return;
        for (std::size_t i = 0; i < features_.spots.size(); ++i) {
            if (features_.spots[i].kind == PlaceKind::building) taken_.push_back(i);
        }
    }

    /// The spot or vertex that is the hub, and the part of the network that it joins.
    bool find_hub() {
        if (features_.lines.empty()) {
            if (has_errors(reading_.diagnostics)) return false;
            reading_.error(options_.file_position, "a GeoJSON map without a line", "lines along which cables may run");
            return false;
        }
        const NodeId hub = site_.node("hub");
        const Document& document = site_.document();
        const NodeId place = document.find(hub, "place");
        const NodeId near = document.find(hub, "near");
        if (place != no_node && document.at(place).kind == NodeKind::scalar) {
            const int spot = spots_.find(document.at(place).text, document.position(place), reading_);
            return spot >= 0 && join_hub(static_cast<std::size_t>(spot), document.position(place));
        }
        if (near == no_node) return false;
        const auto at = read_position(document, near, CoordinateSystem::wgs84_degrees, reading_);
        return at && find_hub_near(*at, document.position(near));
    }

    /// Distance on the plane from a point to an outline; 0 inside it.
    [[nodiscard]] double distance_to(const SpotFeature& spot, const Position& at) const {
        for (const auto& ring : spot.rings) {
            if (ring.size() > 2 && ring_holds(ring, at)) return 0;
        }
        double least = std::numeric_limits<double>::infinity();
        const Position point = plane_.to_plane(at);
        for (const Stretch& side : sides_on_plane(spot, plane_))
            least = std::min(least, nearest_points(side, {point, point}).metres);
        return least;
    }

    bool find_hub_near(const Position& at, const SourcePosition& where) {
        std::size_t nearest_spot = features_.spots.size();
        double to_spot = std::numeric_limits<double>::infinity();
        for (std::size_t i = 0; i < features_.spots.size(); ++i) {
            const double metres = distance_to(features_.spots[i], at);
            if (metres < to_spot) std::tie(nearest_spot, to_spot) = std::make_tuple(i, metres);
        }
        int nearest_vertex = -1;
        double to_vertex = std::numeric_limits<double>::infinity();
        for (std::size_t line = 0; line < features_.lines.size(); ++line) {
            if (parts_.of_line[line] < 0) continue;
            for (const int vertex : vertices_.of_line[line]) {
                const Position& point = vertices_.at()[static_cast<std::size_t>(vertex)];
                const double metres = metres_between(point, at, CoordinateSystem::wgs84_degrees);
                if (metres >= to_vertex) continue;
                std::tie(nearest_vertex, to_vertex) = std::make_tuple(vertex, metres);
            }
        }
        if (!is_near(std::min(to_spot, to_vertex), where, reading_)) return false;
        if (to_spot <= to_vertex && nearest_spot < features_.spots.size()) return join_hub(nearest_spot, where);
        return add_hub_at_vertex(vertices_.at()[static_cast<std::size_t>(nearest_vertex)], where);
    }

    /// A hub at a point of a line is a spot of its own there.
    bool add_hub_at_vertex(const Position& at, const SourcePosition& where) {
        SpotFeature spot;
        spot.id = junction_name(at);
        spot.name = spot.id;
        spot.kind = PlaceKind::hub;
        spot.rings = {{at}};
        spot.where = where;
        features_.spots.push_back(std::move(spot));
        return join_hub(features_.spots.size() - 1, where);
    }

    /// Distance from an outline to each part of the network, on the plane.
    [[nodiscard]] std::vector<double> distances_to_parts(const SpotFeature& spot) const {
        std::vector<double> least(parts_.metres.size(), std::numeric_limits<double>::infinity());
        const std::vector<Stretch> sides = sides_on_plane(spot, plane_);
        for (std::size_t line = 0; line < features_.lines.size(); ++line) {
            if (parts_.of_line[line] < 0) continue;
            double& metres = least[static_cast<std::size_t>(parts_.of_line[line])];
            const std::vector<Position>& points = features_.lines[line].points;
            for (std::size_t i = 0; i + 1 < points.size(); ++i) {
                const Stretch edge{plane_.to_plane(points[i]), plane_.to_plane(points[i + 1])};
                for (const Stretch& side : sides)
                    metres = std::min(metres, nearest_points(edge, side).metres);
            }
        }
        return least;
    }

    /// Joins the hub to the longest part of the network that is near enough.
    bool join_hub(std::size_t spot, const SourcePosition& where) {
        const std::vector<double> distances = distances_to_parts(features_.spots[spot]);
        double nearest = std::numeric_limits<double>::infinity();
        for (std::size_t part = 0; part < distances.size(); ++part) {
            nearest = std::min(nearest, distances[part]);
            const bool longer =
                hub_part_ < 0 || parts_.metres[part] > parts_.metres[static_cast<std::size_t>(hub_part_)];
            if (distances[part] <= options_.longest_lateral_metres && longer) hub_part_ = static_cast<int>(part);
        }
        if (hub_part_ < 0) {
            reading_.error(where,
                           fmt::format("the hub, {}, is {:.0f} m from the nearest line that may be used",
                                       quoted(features_.spots[spot].id), nearest),
                           fmt::format("at most longest-lateral, {:.0f} m", options_.longest_lateral_metres));
            return false;
        }
        hub_spot_ = spot;
        const EdgeSearch search(features_.lines, parts_.of_line, hub_part_, plane_);
        joined_.push_back({spot, search.nearest(features_.spots[spot]).value()});
        return true;
    }

    bool join(std::size_t spot, const EdgeSearch& search) {
        const auto found = search.nearest(features_.spots[spot]);
        if (found && found->metres <= options_.longest_lateral_metres) {
            joined_.push_back({spot, *found});
            return true;
        }
        const SpotFeature& feature = features_.spots[spot];
        const std::string text =
            fmt::format("{} is cut off from the hub: it is {:.1f} m from the network that the hub joins",
                        quoted(feature.id), found ? found->metres : 0.0);
        const std::string limit = fmt::format("longest-lateral, {:.0f} m", options_.longest_lateral_metres);
        if (options_.skip_cut_off) {
            reading_.warning(feature.where, text + ", beyond " + limit + "; it is left out");
            draft_.skipped_places.insert(feature.id);
            draft_.skipped_places.insert(feature.name);
        } else {
            reading_.error(feature.where, text, "at most " + limit + "; or 'cut-off: skip'");
        }
        return false;
    }

    /// The spots that the site names, and those that are not buildings.
    void join_named_spots(const EdgeSearch& search) {
        std::set<std::size_t> wanted;
        for (const std::string& name : named_places(site_)) {
            const int spot = spots_.number_of(name);
            if (spot >= 0) wanted.insert(static_cast<std::size_t>(spot));
        }
        for (std::size_t i = 0; i < features_.spots.size(); ++i) {
            if (features_.spots[i].kind != PlaceKind::building) wanted.insert(i);
        }
        for (const std::size_t spot : wanted) {
            if (spot != hub_spot_) join(spot, search);
        }
        settled_ = std::move(wanted);
        settled_.insert(hub_spot_);
    }

    /// The buildings taken without being listed: the nearest to the hub first, up to the limit.
    void join_taken_buildings(const EdgeSearch& search) {
        const Position hub = joined_.front().attachment.entrance;
        std::set<std::tuple<double, std::size_t>> by_distance;
        for (const std::size_t spot : taken_) {
            if (!settled_.contains(spot)) by_distance.emplace(distance_to(features_.spots[spot], hub), spot);
        }
        for (const auto& [metres, spot] : by_distance) {
            if (options_.nearest > 0 && static_cast<int>(brought_.size()) >= options_.nearest) break;
            if (join(spot, search)) brought_.push_back(spot);
        }
        for (const std::size_t spot : taken_) {
            const bool is_named = settled_.contains(spot) && spot != hub_spot_;
            if (is_named) brought_.push_back(spot);
        }
    }

    void settle_hub() {
        const int place = draft_.places.number_of(features_.spots[hub_spot_].id);
        if (place < 0) return;
        draft_.scenario.hub.place = place;
        draft_.has_hub = true;
    }

    void add_taken_buildings() {
        for (const std::size_t spot : brought_) {
            const int place = draft_.places.number_of(features_.spots[spot].id);
            if (place < 0) continue;
            Building building;
            building.id = features_.spots[spot].id;
            building.name = features_.spots[spot].name;
            building.place = place;
            building.links = options_.links;
            building.devices = options_.devices;
            draft_.from_map.push_back(std::move(building));
        }
    }

    Features features_;
    const GeoJsonOptions& options_;
    const Fields& site_;
    Reading& reading_;
    Draft& draft_;
    LocalPlane plane_;
    LineVertices vertices_;
    LineParts parts_;
    NameIndex spots_{"point or polygon"};
    std::vector<std::size_t> taken_;
    std::vector<std::size_t> brought_;
    std::set<std::size_t> settled_;
    std::vector<JoinedSpot> joined_;  ///< The hub first.
    std::size_t hub_spot_ = 0;
    int hub_part_ = -1;
};

}  // namespace

void read_geojson_map(Fields& map, const Fields& site, Sources& sources, Reading& reading, Draft& draft) {
    for (const std::string_view key : {"places", "segments", "coordinates"}) {
        if (map.has(key)) {
            reading.error(map.position(key), fmt::format("both 'geojson' and '{}' in a map", key), "one of the two");
        }
    }
    draft.scenario.coordinates = CoordinateSystem::wgs84_degrees;
    const GeoJsonOptions options = read_geojson_options(map.record("geojson"), reading, draft);
    if (options.file.empty() || draft.scenario.grounds.empty()) return;
    const Document* document = sources.open(options.file, map.document(), options.file_position, Syntax::json, reading);
    if (document == nullptr) return;
    Features features = read_features(*document, options, reading, draft);
    for (AreaFeature& feature : features.areas) {
        draft.areas.add(feature.area.id, static_cast<int>(draft.scenario.areas.size()), feature.where, reading);
        draft.scenario.areas.push_back(std::move(feature.area));
    }
    GeoJsonMap(std::move(features), options, site, reading, draft).build();
}

}  // namespace spadework::site_file
