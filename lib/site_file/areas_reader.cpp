#include <algorithm>

#include <fmt/format.h>

#include "geometry/ring_checks.hpp"
#include "scenario/local_plane.hpp"
#include "site_file/keys.hpp"
#include "site_file/section_readers.hpp"

namespace spadework::site_file {

namespace {

constexpr AreaUse area_uses[] = {AreaUse::open_ground, AreaUse::obstacle, AreaUse::overlay};

/// "corner 3 to corner 4", counted from 1.
std::string side_in_words(std::size_t side, std::size_t count) {
    return fmt::format("corner {} to corner {}", side + 1, (side + 1) % count + 1);
}

std::vector<Position> on_plane(const std::vector<Position>& ring, const LocalPlane& plane) {
    std::vector<Position> points;
    for (const Position& at : ring)
        points.push_back(plane.to_plane(at));
    return points;
}

std::string problem_of_ring(const std::vector<Position>& ring, const LocalPlane& plane) {
    const auto fault = fault_of_ring(on_plane(ring, plane));
    if (!fault) return {};
    const Position at = plane.from_plane(fault->at);
    return fmt::format("crosses or touches itself at [{:.9g}, {:.9g}]: the line from {} meets that from {}", at.x, at.y,
                       side_in_words(fault->first, ring.size()), side_in_words(fault->second, ring.size()));
}

/// What is wrong with one ring among those before it: 0 is the border.
std::string problem_of_ring_among(const std::vector<std::vector<Position>>& rings, std::size_t number,
                                  const LocalPlane& plane) {
    if (rings[number].size() < 3) return fmt::format("has {} different corners", rings[number].size());
    if (const std::string problem = problem_of_ring(rings[number], plane); !problem.empty()) return problem;
    if (number == 0) return {};
    const std::vector<Position> hole = on_plane(rings[number], plane);
    if (!ring_within(hole, on_plane(rings[0], plane))) return "does not lie inside the border";
    for (std::size_t other = 1; other < number; ++other) {
        if (!rings_apart(hole, on_plane(rings[other], plane))) return fmt::format("overlaps hole {}", other);
    }
    return {};
}

/// Corners behind a key, without repeats in a row nor the first repeated at the end. Nothing where one is unreadable.
std::optional<std::vector<Position>> read_ring(const Document& document, NodeId node, CoordinateSystem coordinates,
                                               Reading& reading) {
    if (document.at(node).kind != NodeKind::sequence) {
        reading.error(document.position(node), fmt::format("ring is {}", description(document.at(node))),
                      "a list of positions");
        return std::nullopt;
    }
    std::vector<Position> ring;
    for (const NodeId item : document.children(node)) {
        const auto at = read_position(document, item, coordinates, reading);
        if (!at) return std::nullopt;
        if (ring.empty() || !(ring.back() == *at)) ring.push_back(*at);
    }
    if (ring.size() > 1 && ring.front() == ring.back()) ring.pop_back();
    return ring;
}

/// The border and the holes, each with where it stands in the file.
void read_rings(Fields& fields, CoordinateSystem coordinates, Reading& reading, Area& area) {
    if (!fields.has("border")) return;
    std::vector<NodeId> nodes = {fields.node("border")};
    const std::vector<NodeId> holes = fields.items("holes");
    nodes.insert(nodes.end(), holes.begin(), holes.end());
    for (const NodeId node : nodes) {
        auto ring = read_ring(fields.document(), node, coordinates, reading);
        if (!ring) return;
        area.rings.push_back(std::move(*ring));
    }
    const LocalPlane plane(coordinates, area.rings.front());
    for (std::size_t i = 0; i < area.rings.size(); ++i) {
        const std::string problem = problem_of_ring_among(area.rings, i, plane);
        if (problem.empty()) continue;
        const std::string what = i == 0 ? "border" : fmt::format("hole {}", i);
        reading.error(fields.document().position(nodes[i]),
                      fmt::format("{} of area {} {}", what, quoted(area.id), problem),
                      "a ring of three or more corners that does not cross itself, holes inside the border and apart");
        return;
    }
}

void check_kind(const Fields& fields, Reading& reading, const Area& area) {
    const bool overlay = area.use == AreaUse::overlay;
    if (area.use == AreaUse::open_ground && !fields.has("ground")) {
        reading.error(fields.position(), "key 'ground' is missing in open ground", "the ground that it is of");
    }
    if (area.use == AreaUse::obstacle && fields.has("ground")) {
        reading.error(fields.position("ground"), "an obstacle with a ground", "none: it may not be entered");
    }
    for (const std::string_view key : {"extra-per-length", "charges"}) {
        if (!overlay && fields.has(key)) {
            reading.error(fields.position(key), fmt::format("key '{}' in an area that is not an overlay", key),
                          "an overlay over it");
        }
    }
    if (area.use != AreaUse::obstacle && fields.has("bars-segments")) {
        reading.error(fields.position("bars-segments"), "key 'bars-segments' in an area that is not an obstacle",
                      "only obstacles to have it");
    }
    if (overlay && !fields.has("ground") && !fields.has("extra-per-length") && !fields.has("charges")) {
        reading.error(fields.position(), "an overlay that changes nothing", "ground, extra-per-length or charges");
    }
}

}  // namespace

std::string problem_of_rings(const std::vector<std::vector<Position>>& rings, CoordinateSystem coordinates) {
    const LocalPlane plane(coordinates, rings.front());
    for (std::size_t i = 0; i < rings.size(); ++i) {
        const std::string problem = problem_of_ring_among(rings, i, plane);
        if (!problem.empty()) return i == 0 ? "its border " + problem : fmt::format("its hole {} {}", i, problem);
    }
    return {};
}

Area read_area_kind(Fields& fields, Reading& reading, const Draft& draft) {
    Area area;
    const int use = fields.choice("use");
    if (fields.has("ground")) {
        const std::string id = fields.id("ground");
        const int ground = id.empty() ? -1 : draft.grounds.find(id, fields.position("ground"), reading);
        if (ground >= 0) area.ground = ground;
    }
    area.extra_per_metre = fields.price("extra-per-length");
    area.charges = read_charges(fields);
    area.bars_segments = fields.flag("bars-segments");
    if (use < 0) return area;
    area.use = area_uses[use];
    check_kind(fields, reading, area);
    return area;
}

void read_areas(Fields& map, CoordinateSystem coordinates, Reading& reading, Draft& draft) {
    for (const NodeId item : map.items("areas")) {
        Fields fields(reading, map.document(), item, area_record(), "");
        const std::string id = fields.id("id");
        Area area = read_area_kind(fields, reading, draft);
        area.id = id;
        area.name = fields.text("name");
        read_rings(fields, coordinates, reading, area);
        if (area.id.empty()) continue;
        const auto number = static_cast<int>(draft.scenario.areas.size());
        if (draft.areas.add(area.id, number, fields.position("id"), reading)) {
            draft.scenario.areas.push_back(std::move(area));
        }
    }
}

}  // namespace spadework::site_file
