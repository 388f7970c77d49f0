#pragma once

#include <vector>

#include "geometry/vertex_grid.hpp"
#include "site_file/geojson_features.hpp"

namespace spadework::site_file {

/// The points of all lines, points at the same coordinates (to 10^-7 degree, about 1 cm) being one vertex.
struct LineVertices {
    std::vector<std::vector<int>> of_line;  ///< Vertex of each point of each line.
    std::vector<int> uses;                  ///< How many points of lines lie at each vertex.

    /// The vertex at a position; a new one where there is none yet.
    int vertex_at(const Position& position);
    /// By vertex, in the order of first appearance.
    [[nodiscard]] const std::vector<Position>& at() const { return grid.at(); }

    VertexGrid grid;
};

LineVertices vertices_of(const std::vector<LineFeature>& lines);

/// Lines that hang together at shared vertices. Banned lines join nothing and belong to no part.
struct LineParts {
    std::vector<int> of_line;    ///< -1 for banned lines.
    std::vector<double> metres;  ///< Length of each part.
};
LineParts parts_of(const std::vector<LineFeature>& lines, const LineVertices& vertices);

}  // namespace spadework::site_file
