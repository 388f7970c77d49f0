#include "site_file/line_vertices.hpp"

#include "geometry/geodesic.hpp"

namespace spadework::site_file {

namespace {

int root_of(std::vector<int>& parent, int item) {
    while (parent[static_cast<std::size_t>(item)] != item) {
        int& up = parent[static_cast<std::size_t>(item)];
        up = parent[static_cast<std::size_t>(up)];
        item = up;
    }
    return item;
}

}  // namespace

int LineVertices::vertex_at(const Position& position) {
    const int vertex = grid.vertex_at(position);
    uses.resize(grid.at().size(), 0);
    return vertex;
}

LineVertices vertices_of(const std::vector<LineFeature>& lines) {
    LineVertices vertices;
    for (const LineFeature& line : lines) {
        std::vector<int> of_line;
        of_line.reserve(line.points.size());
        for (const Position& point : line.points) {
            of_line.push_back(vertices.vertex_at(point));
            ++vertices.uses[static_cast<std::size_t>(of_line.back())];
        }
        vertices.of_line.push_back(std::move(of_line));
    }
    return vertices;
}

LineParts parts_of(const std::vector<LineFeature>& lines, const LineVertices& vertices) {
    std::vector<int> parent(vertices.at().size());
    for (std::size_t i = 0; i < parent.size(); ++i)
        parent[i] = static_cast<int>(i);
    for (std::size_t line = 0; line < lines.size(); ++line) {
        if (!lines[line].ban.empty()) continue;
        const std::vector<int>& points = vertices.of_line[line];
        for (const int point : points)
            parent[static_cast<std::size_t>(root_of(parent, point))] = root_of(parent, points.front());
    }
    LineParts parts;
    std::vector<int> part_of_root(vertices.at().size(), -1);
    for (std::size_t line = 0; line < lines.size(); ++line) {
        parts.of_line.push_back(-1);
        if (!lines[line].ban.empty()) continue;
        const int root = root_of(parent, vertices.of_line[line].front());
        int& part = part_of_root[static_cast<std::size_t>(root)];
        if (part < 0) {
            part = static_cast<int>(parts.metres.size());
            parts.metres.push_back(0);
        }
        parts.of_line.back() = part;
        parts.metres[static_cast<std::size_t>(part)] +=
            metres_along(lines[line].points, CoordinateSystem::wgs84_degrees);
    }
    return parts;
}

}  // namespace spadework::site_file
