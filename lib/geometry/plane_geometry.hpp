#pragma once

#include <vector>

#include "scenario/scenario.hpp"

namespace spadework {

/// A straight piece between two points of a plane, in metres.
struct Stretch {
    Position from;
    Position to;
};

/// Where two stretches come nearest to each other.
struct Nearest {
    double metres = 0;
    double share = 0;    ///< How far along the first stretch, 0 to 1.
    Position on_first;   ///< The point of the first stretch.
    Position on_second;  ///< The point of the second.
};

/// Nearest points of two stretches; the crossing point where they cross. A stretch may be a single point.
Nearest nearest_points(const Stretch& first, const Stretch& second);

/// A ring of points (the last joined to the first) holds a point: even-odd rule.
bool ring_holds(const std::vector<Position>& ring, const Position& point);

/// The sides of an outline: of each ring all around; a single point is a side without length.
std::vector<Stretch> sides_of(const std::vector<std::vector<Position>>& rings);

}  // namespace spadework
