#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework {

/// Numbers the points of a map in degrees, points at the same coordinates (to 10^-7 degree, about 1 cm) being one
/// vertex, in the order they are first asked for. Longitudes 180 and -180 are the same.
class VertexGrid {
public:
    /// The vertex at a position; a new one where there is none yet.
    int vertex_at(const Position& position);

    /// Where each vertex is: the position it was first asked for with.
    [[nodiscard]] const std::vector<Position>& at() const { return at_; }

private:
    struct Cell {
        long long x;
        long long y;
        friend bool operator==(const Cell&, const Cell&) = default;
    };
    struct CellHash {
        std::size_t operator()(const Cell& cell) const;
    };
    std::vector<Position> at_;
    std::unordered_map<Cell, int, CellHash> by_cell_;  ///< Only looked up, never walked.
};

/// A position in degrees rounded to what a vertex is told apart by, 10^-7 degree.
Position rounded_degrees(const Position& at);

/// "-77.1602630,39.1017410": a name for the junction at a position in degrees.
std::string junction_name(const Position& at);

}  // namespace spadework
