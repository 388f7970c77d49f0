#include "drawing/base_map.hpp"

#include <fmt/format.h>

namespace spadework::drawing {

namespace {

std::string path_of_rings(const Area& area, const MapFrame& frame) {
    std::string path;
    for (const std::vector<Position>& ring : area.rings) {
        const std::vector<Point> points = clipped_ring(frame.points(ring), frame.rectangle());
        if (points.size() >= 3) path += (path.empty() ? "" : " ") + path_of(points) + " Z";
    }
    return path;
}

}  // namespace

Attributes area_look(AreaUse use) {
    switch (use) {
        case AreaUse::open_ground:
            return {{"fill", "#eef4e4"}, {"stroke", "#b7c69b"}, {"stroke-width", 0.8}};
        case AreaUse::obstacle:
            return {{"fill", "#e6e6e6"}, {"stroke", "#8f8f8f"}, {"stroke-width", 0.8}};
        case AreaUse::overlay:
            return {{"fill", "none"}, {"stroke", "#777777"}, {"stroke-width", 1}, {"stroke-dasharray", "2 3"}};
    }
    return {};
}

std::string path_of(const std::vector<Point>& line) {
    std::string path;
    for (const Point& point : line)
        path += fmt::format("{}{} {}", path.empty() ? "M" : " L", number(point.x), number(point.y));
    return path;
}

std::string path_of(const std::vector<std::vector<Point>>& lines) {
    std::string path;
    for (const std::vector<Point>& line : lines)
        path += (path.empty() ? "" : " ") + path_of(line);
    return path;
}

AreasSeen write_areas(SvgWriter& svg, const Ids& ids, const Scenario& scenario, const MapFrame& frame) {
    AreasSeen seen;
    if (scenario.areas.empty()) return seen;
    svg.open("g", {{"id", ids.id("areas")}, {"fill-rule", "evenodd"}});
    for (const AreaUse use : {AreaUse::open_ground, AreaUse::obstacle, AreaUse::overlay}) {
        for (const Area& area : scenario.areas) {
            if (area.use != use) continue;
            const std::string path = path_of_rings(area, frame);
            if (path.empty()) continue;
            Attributes attributes = area_look(use);
            attributes.emplace_back("d", path);
            svg.titled("path", attributes, drawn(area.name.empty() ? area.id : area.name));
            (use == AreaUse::open_ground ? seen.open_ground
             : use == AreaUse::obstacle  ? seen.obstacle
                                         : seen.overlay) = true;
        }
    }
    svg.close();
    return seen;
}

bool write_unused(SvgWriter& svg, const Ids& ids, const Scenario& scenario, const MapFrame& frame,
                  const std::vector<bool>& used) {
    std::string path;
    for (std::size_t i = 0; i < scenario.segments.size(); ++i) {
        if (used[i] || scenario.segments[i].area) continue;
        const auto parts = clipped_line(frame.points(scenario.segments[i].polyline), frame.rectangle());
        if (!parts.empty()) path += (path.empty() ? "" : " ") + path_of(parts);
    }
    if (path.empty()) return false;
    svg.open("g", {{"id", ids.id("unused")}});
    svg.leaf("path", {{"d", path}, {"fill", "none"}, {"stroke", unused_colour}, {"stroke-width", unused_width}});
    svg.close();
    return true;
}

}  // namespace spadework::drawing
