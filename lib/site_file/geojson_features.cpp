#include "site_file/geojson_features.hpp"

#include <cmath>
#include <set>

#include <fmt/format.h>

#include "site_file/geojson_geometry.hpp"
#include "site_file/keys.hpp"
#include "site_file/section_readers.hpp"

namespace spadework::site_file {

namespace {

class FeatureReader {
public:
    FeatureReader(const Document& document, const GeoJsonOptions& options, Reading& reading, const Draft& draft)
        : document_(document), options_(options), reading_(reading), draft_(draft) {}

    Features read() {
        refuse_other_reference_systems();
        const NodeId root = document_.root;
        const std::string type = text_of(document_.find(root, "type"));
        if (type == "FeatureCollection") {
            const NodeId list = document_.find(root, "features");
            if (list == no_node || document_.at(list).kind != NodeKind::sequence) {
                reading_.error(document_.position(list == no_node ? root : list),
                               "a FeatureCollection without a list of features", "\"features\": [...]");
            }
            for (const NodeId feature : document_.children(list))
                read_feature(feature);
        } else if (type == "Feature") {
            read_feature(root);
        } else if (is_geometry_type(type)) {
            number_ = 1;
            read_parts(root, no_node, {});
        } else {
            reading_.error(document_.position(root),
                           "a text that is not GeoJSON: " + (type.empty() ? "it has no type" : "type " + quoted(type)),
                           "a FeatureCollection, a Feature or a geometry (RFC 7946)");
        }
        report_out_of_range();
        return std::move(features_);
    }

private:
    std::string text_of(NodeId node) const {
        return node != no_node && document_.at(node).kind == NodeKind::scalar ? document_.at(node).text : "";
    }

    /// A text that reports will show: empty where there is none, and an error where it has control characters.
    std::string words_of(NodeId node, std::string_view what) {
        std::string text = text_of(node);
        if (text.empty()) return text;
        const std::string problem = problem_of_text(text, false);
        if (problem.empty()) return text;
        reading_.error(document_.position(node), fmt::format("{} is {}, {}", what, quoted(text), problem),
                       "one line of text");
        return {};
    }

    /// The member "crs" of the older 2008 format: RFC 7946 section 4 knows longitude and latitude only.
    void refuse_other_reference_systems() {
        const NodeId crs = document_.find(document_.root, "crs");
        if (crs == no_node || document_.at(crs).kind == NodeKind::null) return;
        const std::string name = text_of(document_.find(document_.find(crs, "properties"), "name"));
        const bool is_wgs84 = name.ends_with("CRS84") || name.ends_with("EPSG::4326") || name.ends_with("EPSG:4326");
        if (is_wgs84) return;
        reading_.error(document_.position(crs), "coordinates in another reference system, " + quoted(name),
                       "longitude and latitude on WGS 84 (RFC 7946 section 4)");
    }

    void report_out_of_range() {
        if (out_of_range_.count == 0) return;
        const bool looks_projected = std::abs(out_of_range_.x) > 720 || std::abs(out_of_range_.y) > 720;
        const std::string others =
            out_of_range_.count == 1 ? std::string(" is") : fmt::format(" and {} more are", out_of_range_.count - 1);
        reading_.error(out_of_range_.first,
                       fmt::format("position [{}, {}]{} out of range{}", out_of_range_.x, out_of_range_.y, others,
                                   looks_projected ? ": these look like projected metres, not degrees" : ""),
                       "longitude from -180 to 180 and latitude from -90 to 90 (RFC 7946 section 4)");
    }

    void read_feature(NodeId feature) {
        ++number_;
        const std::string type = text_of(document_.find(feature, "type"));
        if (type != "Feature") {
            reading_.error(document_.position(feature), "an entry that is not a Feature",
                           "{\"type\": \"Feature\", ...}");
            return;
        }
        const NodeId properties = document_.find(feature, "properties");
        if (properties != no_node && document_.at(properties).kind != NodeKind::mapping &&
            document_.at(properties).kind != NodeKind::null) {
            reading_.error(document_.position(properties), "properties that are not an object", "an object or null");
        }
        const NodeId geometry = document_.find(feature, "geometry");
        if (geometry != no_node && document_.at(geometry).kind == NodeKind::null) {
            reading_.warning(document_.position(feature), "a feature without a place on the map; it is left out");
            return;
        }
        if (geometry == no_node || document_.at(geometry).kind != NodeKind::mapping) {
            reading_.error(document_.position(feature), "a feature without a geometry", "a geometry or null");
            return;
        }
        read_parts(geometry, properties, text_of(document_.find(feature, "id")));
    }

    void read_parts(NodeId geometry, NodeId properties, const std::string& id) {
        for (GeometryPart& part : read_geometry(document_, geometry, out_of_range_, reading_)) {
            if (part.kind == GeometryPart::Kind::line) {
                add_line(part, properties, id);
            } else if (!is_only_area(part, properties, id)) {
                add_spot(part, properties, id);
            }
        }
    }

    /// An id that no other feature has.
    std::string unique_id(const std::string& id, const std::string& name, std::string_view kind,
                          std::set<std::string>& taken) {
        std::string base = !id.empty() ? id : !name.empty() ? name : fmt::format("{} {}", kind, number_);
        if (const std::string problem = problem_of_id(base); !problem.empty()) {
            base = fmt::format("{} {}", kind, number_);
        }
        std::string unique = base;
        for (int i = 2; !taken.insert(unique).second; ++i)
            unique = fmt::format("{} ({})", base, i);
        return unique;
    }

    void add_line(GeometryPart& part, NodeId properties, const std::string& id) {
        LineFeature line;
        line.where = document_.position(part.node);
        line.name = words_of(document_.find(properties, "name"), "name");
        line.id = unique_id(id, line.name, "line", line_ids_);
        line.points = std::move(part.rings.front());
        const std::size_t ranges = reading_.ranges.size();
        line.length = length_of(document_.find(properties, options_.length_property));
        line.ground = ground_of(properties);
        line.ban = ban_of(properties);
        line.pole_line = flag_of(document_.find(properties, "poles"));
        const DuctGiven duct = duct_of(document_.find(properties, "duct"));
        line.duct_room = duct.room;
        line.duct_bore = duct.bore;
        line.charges = charges_of(document_.find(properties, "charges"));
        name_ranges(ranges, line.id);
        features_.lines.push_back(std::move(line));
    }

    /// Ranges read since `first` are those of a feature: their keys tell it.
    void name_ranges(std::size_t first, const std::string& id) {
        for (std::size_t i = first; i < reading_.ranges.size(); ++i) {
            std::string& key = reading_.ranges[i].value.key;
            const std::size_t list_end = key.find("[]");
            if (list_end != std::string::npos) key.replace(0, list_end + 2, fmt::format("map.geojson[{}]", id));
        }
    }

    std::optional<Length> length_of(NodeId node) {
        if (node == no_node || document_.at(node).kind == NodeKind::null) return std::nullopt;
        return Fields(reading_, document_, no_node, segment_record(), "").length_at("length", node);
    }

    int ground_of(NodeId properties) {
        const NodeId ground = document_.find(properties, "ground");
        if (ground != no_node) {
            return std::max(0, draft_.grounds.find(text_of(ground), document_.position(ground), reading_));
        }
        const NodeId tag = document_.find(properties, options_.ground_property);
        if (tag == no_node) return options_.default_ground;
        const auto found = options_.ground_by_value.find(text_of(tag));
        if (found != options_.ground_by_value.end()) return found->second;
        const int same_name = draft_.grounds.number_of(text_of(tag));
        if (same_name >= 0) return same_name;
        if (unlisted_.insert(text_of(tag)).second && !draft_.grounds.empty()) {
            const auto& ground_name = draft_.scenario.grounds[static_cast<std::size_t>(options_.default_ground)].id;
            reading_.warning(document_.position(tag),
                             fmt::format("{} {} has no ground of its own; it is taken as {}", options_.ground_property,
                                         quoted(text_of(tag)), quoted(ground_name)),
                             "an entry in map.geojson.grounds.values");
        }
        return options_.default_ground;
    }

    std::string ban_of(NodeId properties) {
        const NodeId ban = document_.find(properties, "ban");
        if (ban != no_node && !text_of(ban).empty()) return words_of(ban, "ban");
        if (options_.ban_property.empty()) return {};
        const auto found = options_.ban_by_value.find(text_of(document_.find(properties, options_.ban_property)));
        return found == options_.ban_by_value.end() ? std::string() : found->second;
    }

    bool flag_of(NodeId node) {
        if (node == no_node || document_.at(node).kind == NodeKind::null) return false;
        if (!document_.at(node).quoted && text_of(node) == "true") return true;
        if (!document_.at(node).quoted && text_of(node) == "false") return false;
        reading_.error(document_.position(node), "poles is " + description(document_.at(node)), "true or false");
        return false;
    }

    DuctGiven duct_of(NodeId node) {
        if (node == no_node || document_.at(node).kind == NodeKind::null) return {};
        return read_duct(Fields(reading_, document_, node, segment_duct_record(), ""), reading_);
    }

    std::vector<FixedCharge> charges_of(NodeId node) {
        std::vector<FixedCharge> charges;
        if (node == no_node || document_.at(node).kind == NodeKind::null) return charges;
        if (document_.at(node).kind != NodeKind::sequence) {
            reading_.error(document_.position(node), "charges is " + description(document_.at(node)),
                           "a list of charges");
        }
        for (const NodeId item : document_.children(node))
            charges.push_back(read_charge(Fields(reading_, document_, item, charge_record(), "")));
        return charges;
    }

    void add_spot(GeometryPart& part, NodeId properties, const std::string& id) {
        SpotFeature spot;
        const NodeId kind = document_.find(properties, "place");
        if (kind != no_node) {
            spot.kind = kind_of(kind);
        } else if (!options_.building_property.empty()) {
            const NodeId tag = document_.find(properties, options_.building_property);
            if (tag == no_node || document_.at(tag).kind == NodeKind::null || text_of(tag) == "no") return;
        }
        spot.where = document_.position(part.node);
        spot.name = words_of(document_.find(properties, "name"), "name");
        spot.id = unique_id(id, spot.name, "building", spot_ids_);
        if (spot.name.empty()) spot.name = spot.id;
        spot.rings = std::move(part.rings);
        const NodeId enclosure = document_.find(properties, "enclosure");
        if (enclosure != no_node && document_.at(enclosure).kind != NodeKind::null) {
            const std::size_t ranges = reading_.ranges.size();
            Fields fields(reading_, document_, enclosure, place_enclosure_record(), "");
            if (fields.has("allowed")) spot.enclosure_allowed = fields.flag("allowed");
            spot.enclosure_reason = fields.text("reason");
            spot.enclosure_extra = fields.money("extra");
            name_ranges(ranges, spot.id);
        }
        features_.spots.push_back(std::move(spot));
    }

    /// The kind of area that a polygon is by the rules; null when it is none.
    const Area* area_kind_of(NodeId properties) const {
        for (const AreaRule& rule : options_.area_rules) {
            const NodeId tag = document_.find(properties, rule.property);
            if (tag == no_node || document_.at(tag).kind == NodeKind::null) continue;
            const auto listed = rule.kinds.find(text_of(tag));
            if (listed != rule.kinds.end()) return &listed->second;
            const auto any = rule.kinds.find("*");
            if (any != rule.kinds.end() && text_of(tag) != "no") return &any->second;
        }
        return nullptr;
    }

    /// Takes a polygon as area where a rule says so; true when it is nothing else besides.
    bool is_only_area(const GeometryPart& part, NodeId properties, const std::string& id) {
        const Area* kind = part.kind == GeometryPart::Kind::area ? area_kind_of(properties) : nullptr;
        if (kind == nullptr) return false;
        add_areas(part, properties, id, *kind);
        return options_.building_property.empty() && document_.find(properties, "place") == no_node;
    }

    /// Each outer ring with its holes is an area of its own.
    void add_areas(const GeometryPart& part, NodeId properties, const std::string& id, const Area& kind) {
        for (std::size_t i = 0; i < part.rings.size(); ++i) {
            AreaFeature feature{kind, document_.position(part.node)};
            feature.area.name = words_of(document_.find(properties, "name"), "name");
            feature.area.id = unique_id(id, feature.area.name, "area", area_ids_);
            feature.area.rings = {part.rings[i]};
            feature.area.rings.insert(feature.area.rings.end(), part.holes[i].begin(), part.holes[i].end());
            const std::string problem = problem_of_rings(feature.area.rings, CoordinateSystem::wgs84_degrees);
            if (problem.empty()) {
                features_.areas.push_back(std::move(feature));
            } else {
                reading_.warning(feature.where,
                                 fmt::format("area {} is left out: {}", quoted(feature.area.id), problem),
                                 "a polygon that does not cross itself");
            }
        }
    }

    PlaceKind kind_of(NodeId node) {
        const std::string word = text_of(node);
        if (word == "junction") return PlaceKind::junction;
        if (word == "handhole") return PlaceKind::handhole;
        if (word == "pole") return PlaceKind::pole;
        if (word != "building") {
            reading_.error(document_.position(node), "place is " + description(document_.at(node)),
                           "one of junction, handhole, pole, building");
        }
        return PlaceKind::building;
    }

    const Document& document_;
    const GeoJsonOptions& options_;
    Reading& reading_;
    const Draft& draft_;
    Features features_;
    OutOfRange out_of_range_;
    int number_ = 0;
    std::set<std::string> line_ids_;
    std::set<std::string> spot_ids_;
    std::set<std::string> area_ids_;
    std::set<std::string> unlisted_;
};

}  // namespace

Features read_features(const Document& document, const GeoJsonOptions& options, Reading& reading, const Draft& draft) {
    return FeatureReader(document, options, reading, draft).read();
}

}  // namespace spadework::site_file
