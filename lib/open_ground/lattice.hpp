#pragma once

// Open ground as a lattice of points on a square grid.

#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include "open_ground/map_sheet.hpp"

namespace spadework::open_ground {

/// A step on the grid, east and north.
struct GridStep {
    int east = 0;
    int north = 0;
};

/// One of each two opposite ways from a point: `directions` is 8, 16 or 32. Ways are the shortest grid steps of their
/// direction, at most 1, 2 or 3 grid lines far.
std::vector<GridStep> grid_steps(int directions);

/// How much longer a way over the endless lattice can be than the straight line between its ends, as a share: 0.028.
/// Between neighbouring ways at an angle a, the worst straight line runs in the middle: 1 / cos(a / 2) - 1.
double longest_detour(int directions);

/// The spacing by the rules; where they have none, such that all open ground together has about 1,000 points, rounded
/// up to a plain figure, and at least 1 m.
Length spacing_of(const Scenario& scenario, const GroundMap& ground);

/// About how many points the lattice will have.
double expected_points(const Scenario& scenario, const GroundMap& ground);

class Lattice {
public:
    /// Adds the points that lie in open ground, in no obstacle and in no overlay with charges, and the lines between
    /// them. Points are named by their area and their column and row in it, from the south-west: "lawn 3,5".
    Lattice(MapSheet& sheet, Length spacing, int directions);

    /// Joins a place to the points around it, at most one and a half spacings away in either direction.
    void join(PlaceIndex place);

private:
    using GridPoint = std::pair<std::int64_t, std::int64_t>;

    void add_points(int area);
    void add_row(int area, std::int64_t row);
    void add_lines(int directions);
    [[nodiscard]] std::int64_t first_line(double from) const;

    MapSheet& sheet_;
    double spacing_;
    std::map<GridPoint, PlaceIndex> points_;
};

}  // namespace spadework::open_ground
