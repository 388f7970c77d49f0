#include "drawn_map/kml_geometry.hpp"

#include <algorithm>
#include <optional>
#include <pugixml.hpp>

#include <fmt/format.h>

#include "drawn_map/plain_text.hpp"
#include "drawn_map/xml_tree.hpp"

namespace spadework::drawn_map {

namespace {

constexpr auto npos = std::string_view::npos;
constexpr std::string_view white_space = " \t\r\n";
constexpr std::string_view geometries[] = {"Point", "LineString",         "LinearRing", "Polygon",   "MultiGeometry",
                                           "Model", "GeometryCollection", "Track",      "MultiTrack"};
using Line = std::vector<Position>;

/// Reads the text of an element `coordinates`: longitude, latitude and perhaps altitude between commas, positions
/// between white space. White space beside a comma is passed over.
class CoordinatesReader {
public:
    CoordinatesReader(const pugi::xml_node& text, MapBuilder& map)
        : text_(text.value()), start_(offset_of(text)), map_(map) {}

    void read(Line& line) {
        skip_space();
        while (at_ < text_.size() && whole_)
            read_position(line);
    }

    [[nodiscard]] bool whole() const { return whole_; }

private:
    void skip_space() { at_ = std::min(text_.find_first_not_of(white_space, at_), text_.size()); }

    void read_position(Line& line) {
        const std::size_t first = at_;
        double numbers[3] = {};
        int count = 0;
        std::size_t end_of_number = 0;
        do {
            const std::size_t end = std::min(text_.find_first_of(" \t\r\n,", at_), text_.size());
            const std::string_view word = text_.substr(at_, end - at_);
            const std::optional<double> number = decimal_number(word);
            if (!number) return refuse(at_, "coordinate " + shown(word) + ", which is not a decimal number");
            if (count < 3) numbers[count] = *number;
            ++count;
            at_ = end;
            end_of_number = end;
        } while (next_is_comma());
        const bool may_be_two =
            count > 3 && text_.substr(first, end_of_number - first).find_first_of(white_space) != npos;
        if (count < 2 || may_be_two) return refuse(first, fmt::format("a position of {} numbers", count));
        if (count > 3) map_.leave_out("further numbers of positions");
        if (numbers[2] != 0) map_.leave_out("altitudes");
        line.push_back({numbers[0], numbers[1]});
        map_.see(line.back(), start_ + first);
    }

    /// Passes over white space and one comma. A comma with nothing behind it ends the list.
    bool next_is_comma() {
        skip_space();
        if (at_ >= text_.size() || text_[at_] != ',') return false;
        ++at_;
        skip_space();
        return at_ < text_.size();
    }

    void refuse(std::size_t at, const std::string& found) {
        whole_ = false;
        map_.error(start_ + at, found, "longitude,latitude or longitude,latitude,altitude");
    }

    std::string_view text_;
    std::size_t start_;
    MapBuilder& map_;
    std::size_t at_ = 0;
    bool whole_ = true;
};

class KmlGeometryReader {
public:
    KmlGeometryReader(const FeatureFacts& facts, MapBuilder& map) : facts_(facts), map_(map) {}

    void read(const pugi::xml_node& geometry, int depth) {
        constexpr int deepest = 50;
        const std::string_view kind = local_name(geometry);
        if (depth > deepest) {
            map_.error(offset_of(geometry), "geometries nested more than 50 deep");
        } else if (kind == "Point") {
            read_point(geometry);
        } else if (kind == "LineString" || kind == "LinearRing") {
            read_line(geometry, kind == "LinearRing");
        } else if (kind == "Polygon") {
            read_polygon(geometry);
        } else if (kind == "Track") {
            read_track(geometry);
        } else if (kind == "Model") {
            map_.leave_out("models");
        } else {
            read_several(geometry, depth);
        }
    }

private:
    void read_several(const pugi::xml_node& geometry, int depth) {
        for (const pugi::xml_node& part : geometry) {
            if (is_kml_geometry(local_name(part))) read(part, depth + 1);
        }
    }

    /// Positions of the element `coordinates` below; nothing where one of them is wrong, or where there are none.
    std::optional<Line> coordinates_of(const pugi::xml_node& geometry) {
        const pugi::xml_node coordinates = child_named(geometry, "coordinates");
        Line line;
        bool whole = true;
        for (const pugi::xml_node& text : coordinates) {
            if (text.type() != pugi::node_pcdata && text.type() != pugi::node_cdata) continue;
            CoordinatesReader reader(text, map_);
            reader.read(line);
            whole = whole && reader.whole();
        }
        if (!whole) return std::nullopt;
        if (!line.empty()) return line;
        map_.leave_out("geometries without coordinates");
        return std::nullopt;
    }

    void read_point(const pugi::xml_node& geometry) {
        const auto line = coordinates_of(geometry);
        if (!line) return;
        map_.leave_out("further positions of points", static_cast<int>(line->size()) - 1);
        map_.add_point(facts_, line->front());
    }

    void read_line(const pugi::xml_node& geometry, bool closed) {
        auto line = coordinates_of(geometry);
        if (!line) return;
        if (closed && line->front() != line->back()) line->push_back(line->front());
        map_.add_line(facts_, *line);
    }

    void read_polygon(const pugi::xml_node& geometry) {
        std::vector<Line> rings;
        if (!read_rings(child_named(geometry, "outerBoundaryIs"), rings)) return;
        if (rings.empty()) map_.leave_out("geometries without coordinates");
        for (const pugi::xml_node& child : geometry) {
            if (local_name(child) == "innerBoundaryIs" && !rings.empty() && !read_rings(child, rings)) return;
        }
        if (!rings.empty()) map_.add_area(facts_, std::move(rings));
    }

    /// False where a position is wrong.
    bool read_rings(const pugi::xml_node& boundary, std::vector<Line>& rings) {
        for (const pugi::xml_node& ring : boundary) {
            if (local_name(ring) != "LinearRing") continue;
            const bool failed_before = map_.failed();
            if (auto line = coordinates_of(ring)) {
                rings.push_back(std::move(*line));
            } else if (map_.failed() && !failed_before) {
                return false;
            }
        }
        return true;
    }

    /// A walked track: elements `coord` of longitude, latitude and altitude between spaces, and `when` beside them.
    void read_track(const pugi::xml_node& track) {
        Line line;
        for (const pugi::xml_node& child : track) {
            const std::string_view kind = local_name(child);
            if (kind == "when") {
                map_.leave_out("timestamps");
            } else if (kind == "coord") {
                read_coord(child, line);
            } else if (kind == "angles") {
                map_.leave_out("views");
            }
        }
        if (line.empty()) return map_.leave_out("geometries without coordinates");
        map_.add_line(facts_, line);
    }

    void read_coord(const pugi::xml_node& element, Line& line) {
        const std::string whole = text_of(element);
        std::string_view text = trimmed(whole);
        if (text.empty()) return map_.leave_out("track points without a place");
        std::vector<double> numbers;
        while (!text.empty()) {
            const std::size_t end = std::min(text.find_first_of(white_space), text.size());
            const auto number = decimal_number(text.substr(0, end));
            if (!number) break;
            numbers.push_back(*number);
            text = trimmed(text.substr(end));
        }
        if (!text.empty() || numbers.size() < 2 || numbers.size() > 3) {
            map_.error(offset_of(element), "track point " + shown(whole), "longitude latitude altitude");
            return;
        }
        if (numbers.size() == 3 && numbers[2] != 0) map_.leave_out("altitudes");
        line.push_back({numbers[0], numbers[1]});
        map_.see(line.back(), offset_of(element));
    }

    const FeatureFacts& facts_;
    MapBuilder& map_;
};

}  // namespace

bool is_kml_geometry(std::string_view local_name) {
    return std::ranges::find(geometries, local_name) != std::end(geometries);
}

void add_kml_geometry(const pugi::xml_node& geometry, const FeatureFacts& facts, MapBuilder& map) {
    KmlGeometryReader(facts, map).read(geometry, 0);
}

}  // namespace spadework::drawn_map
