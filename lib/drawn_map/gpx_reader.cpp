#include "drawn_map/gpx_reader.hpp"

#include <optional>
#include <pugixml.hpp>

#include <fmt/format.h>

#include "drawn_map/plain_text.hpp"
#include "drawn_map/xml_tree.hpp"

namespace spadework::drawn_map {

namespace {

class GpxReader {
public:
    explicit GpxReader(MapBuilder& map) : map_(map) {}

    void read(const pugi::xml_node& root) {
        if (local_name(root) != "gpx") {
            map_.error(offset_of(root), "first element " + shown(local_name(root)), "gpx");
            return;
        }
        for (const pugi::xml_node& child : root) {
            const std::string_view kind = local_name(child);
            if (kind == "wpt") {
                read_waypoint(child);
            } else if (kind == "rte") {
                read_line(child, "rtept", facts_of(child, {"rtept"}));
            } else if (kind == "trk") {
                read_track(child);
            } else if (kind == "extensions") {
                map_.leave_out("extensions of the file");
            }
        }
    }

private:
    /// What is written beside a track, route or waypoint. `parts` are the elements that draw it.
    static FeatureFacts facts_of(const pugi::xml_node& element, std::vector<std::string_view> parts) {
        FeatureFacts facts;
        facts.offset = offset_of(element);
        facts.name = text_of(child_named(element, "name"));
        parts.insert(parts.end(), {"name", "ele", "time", "link", "url", "urlname", "magvar", "geoidheight", "fix",
                                   "sat", "hdop", "vdop", "pdop", "ageofdgpsdata", "dgpsid", "course", "speed"});
        add_leaf_tags(element, parts, facts.tags);
        add_leaf_tags(child_named(element, "extensions"), {}, facts.tags);
        return facts;
    }

    void read_waypoint(const pugi::xml_node& element) {
        const FeatureFacts facts = facts_of(element, {});
        if (const auto at = position_of(element)) map_.add_point(facts, *at);
        count_readings(element, true);
    }

    void read_track(const pugi::xml_node& track) {
        FeatureFacts facts = facts_of(track, {"trkseg"});
        bool drawn = false;
        for (const pugi::xml_node& piece : track) {
            if (local_name(piece) != "trkseg") continue;
            facts.offset = offset_of(piece);
            read_line(piece, "trkpt", facts);
            drawn = true;
        }
        if (!drawn) map_.leave_out("features without a place");
    }

    void read_line(const pugi::xml_node& element, std::string_view point_name, const FeatureFacts& facts) {
        std::vector<Position> line;
        bool whole = true;
        for (const pugi::xml_node& child : element) {
            if (local_name(child) != point_name) continue;
            const auto at = position_of(child);
            if (at) line.push_back(*at);
            whole = whole && at;
            count_readings(child, false);
        }
        if (!whole) return;
        if (line.empty()) return map_.leave_out("features without a place");
        map_.add_line(facts, line);
    }

    std::optional<Position> position_of(const pugi::xml_node& element) {
        const auto longitude = degrees_of(element, "lon");
        const auto latitude = degrees_of(element, "lat");
        if (!longitude || !latitude) return std::nullopt;
        const Position at{*longitude, *latitude};
        map_.see(at, offset_of(element));
        return at;
    }

    std::optional<double> degrees_of(const pugi::xml_node& element, const char* name) {
        const pugi::xml_attribute attribute = element.attribute(name);
        const auto degrees = decimal_number(attribute.value());
        if (degrees) return degrees;
        const std::string_view kind = local_name(element);
        map_.error(offset_of(element),
                   attribute ? fmt::format("{} with {} {}", kind, name, shown(attribute.value()))
                             : fmt::format("{} without {}", kind, name),
                   "lat and lon in decimal degrees");
        return std::nullopt;
    }

    /// What was measured at a point and is not used. What else is written beside a waypoint became tags.
    void count_readings(const pugi::xml_node& point, bool is_waypoint) {
        for (const pugi::xml_node& child : point) {
            const std::string_view kind = local_name(child);
            if (kind == "ele") {
                map_.leave_out("altitudes", trimmed(text_of(child)).empty() ? 0 : 1);
            } else if (kind == "time") {
                map_.leave_out("timestamps");
            } else if (child.type() == pugi::node_element && !is_waypoint) {
                map_.leave_out("readings of track points");
            }
        }
    }

    MapBuilder& map_;
};

}  // namespace

void read_gpx(std::string_view text, MapBuilder& map) {
    pugi::xml_document document;
    if (!parse_xml(text, document, map)) return;
    GpxReader(map).read(document.document_element());
}

}  // namespace spadework::drawn_map
