#pragma once

#include <unordered_map>
#include <vector>

#include "site_file/geojson_features.hpp"

namespace spadework::site_file {

/// The points of all lines, points at the same coordinates (to 10^-7 degree, about 1 cm) being one vertex.
struct LineVertices {
    std::vector<std::vector<int>> of_line;  ///< Vertex of each point of each line.
    std::vector<Position> at;               ///< By vertex, in the order of first appearance.
    std::vector<int> uses;                  ///< How many points of lines lie there.

    /// The vertex at a position; a new one where there is none yet.
    int vertex_at(const Position& position);

private:
    struct Cell {
        long long x;
        long long y;
        friend bool operator==(const Cell&, const Cell&) = default;
    };
    struct CellHash {
        std::size_t operator()(const Cell& cell) const;
    };
    std::unordered_map<Cell, int, CellHash> by_cell_;  ///< Only looked up, never walked.
};

LineVertices vertices_of(const std::vector<LineFeature>& lines);

/// Lines that hang together at shared vertices. Banned lines join nothing and belong to no part.
struct LineParts {
    std::vector<int> of_line;    ///< -1 for banned lines.
    std::vector<double> metres;  ///< Length of each part.
};
LineParts parts_of(const std::vector<LineFeature>& lines, const LineVertices& vertices);

}  // namespace spadework::site_file
