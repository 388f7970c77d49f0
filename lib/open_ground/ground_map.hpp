#pragma once

// Where on the plane the areas of a site lie, and what a straight line meets on its way.

#include <cstdint>
#include <vector>

#include "geometry/box_tree.hpp"
#include "scenario/local_plane.hpp"
#include "scenario/scenario.hpp"

namespace spadework::open_ground {

/// Nearer to a border than this counts as on it, in metres: rounding of a plane's positions.
inline constexpr double on_border_metres = 1e-6;
/// An obstacle is entered by what is deeper inside it than this, in metres: degrees in files are often rounded to 1 cm,
/// metres to 1 mm.
inline constexpr double entered_metres(CoordinateSystem coordinates) {
    return coordinates == CoordinateSystem::wgs84_degrees ? 0.02 : 0.001;
}
/// Shorter pieces of a line than this, in metres, count for nothing.
inline constexpr double least_piece_metres = 1e-3;

/// What areas lie over a point.
struct Zone {
    int open = -1;              ///< The smallest open ground that holds it, an index into areas; -1 for none.
    std::vector<int> overlays;  ///< Indices into areas, ascending.
    int obstacle = -1;          ///< One that it is inside of; -1 for none.
    friend bool operator==(const Zone&, const Zone&) = default;
    [[nodiscard]] bool may_be_dug() const { return open >= 0 && obstacle < 0; }
};

/// A part of a straight line that lies in one zone.
struct Run {
    Position from;
    Position to;
    Zone zone;
};

/// A point of an area's border.
struct BorderPoint {
    int area = 0;
    Position at;
    double metres = 0;  ///< From where it was asked for.
};

class GroundMap {
public:
    explicit GroundMap(const Scenario& scenario);

    [[nodiscard]] const LocalPlane& plane() const { return plane_; }
    /// Border and holes of an area on the plane.
    [[nodiscard]] const std::vector<std::vector<Position>>& rings(int area) const {
        return rings_[static_cast<std::size_t>(area)];
    }
    [[nodiscard]] const Box& box(int area) const { return boxes_[static_cast<std::size_t>(area)]; }
    /// Of an area without its holes, in square metres.
    [[nodiscard]] double square_metres(int area) const { return sizes_[static_cast<std::size_t>(area)]; }

    /// What lies over a point of the plane. Borders belong to open ground, not to overlays and obstacles.
    [[nodiscard]] Zone zone_at(const Position& at) const;
    /// The obstacle that a point is inside of, or -1.
    [[nodiscard]] int obstacle_at(const Position& at) const { return zone_at(at).obstacle; }

    /// The line cut where its zone changes. Obstacles in `passed` are taken as not there. A line between two obstacles
    /// that touch each other is inside them.
    [[nodiscard]] std::vector<Run> runs_of(const Stretch& line, const std::vector<int>& passed = {}) const;

    /// Of each open ground within reach of a point, the nearest point of its border, nearest first.
    [[nodiscard]] std::vector<BorderPoint> open_ground_near(const Position& at, double reach) const;

private:
    [[nodiscard]] bool holds(int area, const Position& at) const;
    [[nodiscard]] double metres_to_border(int area, const Position& at) const;
    [[nodiscard]] std::vector<double> cuts_of(const Stretch& line) const;
    [[nodiscard]] Zone zone_of_piece(const Stretch& piece, const std::vector<int>& passed) const;
    [[nodiscard]] Zone zone_at(const Position& at, const std::vector<int>& passed) const;

    const std::vector<Area>& areas_;
    double entered_metres_;
    LocalPlane plane_;
    std::vector<std::vector<std::vector<Position>>> rings_;
    std::vector<Box> boxes_;
    std::vector<double> sizes_;
    std::vector<Stretch> sides_;
    std::vector<int> area_of_side_;
    BoxTree side_tree_;
    BoxTree area_tree_;
};

}  // namespace spadework::open_ground
