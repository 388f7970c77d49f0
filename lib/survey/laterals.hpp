#pragma once

#include <optional>
#include <string>
#include <vector>

#include "geometry/nearest_stretch.hpp"
#include "survey/line_network.hpp"

namespace spadework::survey {

/// Where a building joins the network.
struct Lateral {
    std::optional<std::size_t> building;  ///< Index into the buildings; nothing for a hub at a point of a line.
    Position entrance;                    ///< Of the building: on its wall, or an entrance that the map shows; degrees.
    bool to_entrance = false;             ///< An entrance that the map shows.
    Edge edge;                            ///< That it leaves from.
    double share = 0;                     ///< How far along the edge.
    Position foot;                        ///< Where it leaves, degrees.
    double metres = 0;                    ///< On the local plane.
};

/// The walls of all buildings and the entrances in them.
class Walls {
public:
    /// The contents and the plane must outlive it. An entrance belongs to the building whose wall is within half a
    /// metre of it.
    Walls(const MapContents& contents, const LocalPlane& plane);

    [[nodiscard]] std::vector<Stretch> of(std::size_t building) const;
    [[nodiscard]] const std::vector<Position>& entrances_of(std::size_t building) const { return entrances_[building]; }
    /// The first other building whose wall a straight line cuts, or nothing. Both ends in degrees.
    [[nodiscard]] std::optional<std::size_t> in_the_way(const Position& from, const Position& to,
                                                        std::optional<std::size_t> own) const;
    /// Whether a straight line to an entrance cuts the building's own walls on the way.
    [[nodiscard]] bool cuts_itself(const Position& from, const Position& entrance, std::size_t building) const;

private:
    const MapContents& contents_;
    const LocalPlane& plane_;
    std::vector<std::size_t> owner_;  ///< Of each side.
    std::optional<StretchSearch> search_;
    std::vector<std::vector<Position>> entrances_;  ///< By building.
};

/// Finds laterals to the edges of usable lines at ground level.
class LateralSearch {
public:
    LateralSearch(const LineNetwork& network, const std::vector<Way>& ways, const std::vector<int>& part_of_chain,
                  const LocalPlane& plane);

    /// Distance to each part that comes within `most_metres` of the sides.
    [[nodiscard]] std::vector<std::pair<int, double>> parts_near(const std::vector<Stretch>& sides,
                                                                 double most_metres) const;
    /// The lateral to a building from one part of the network: to the mapped entrance that is reached over the shortest
    /// line, one that does not cut the building itself before others, if that is within `most_metres`; else to the
    /// nearest wall. Nothing where the part has no edge.
    [[nodiscard]] std::optional<Lateral> to_building(std::size_t building, const Walls& walls, int part,
                                                     double most_metres) const;
    /// The lateral to a point.
    [[nodiscard]] std::optional<Lateral> to_point(const Position& at, int part) const;
    /// Distance in metres from a point to the nearest edge of any part; infinite where there is none.
    [[nodiscard]] double metres_to_any(const Position& at) const;

private:
    [[nodiscard]] std::optional<Lateral> to_sides(const std::vector<Stretch>& sides, int part) const;

    const LocalPlane& plane_;
    std::vector<Edge> edges_;
    std::vector<int> parts_;  ///< Of each edge.
    std::optional<StretchSearch> search_;
};

}  // namespace spadework::survey
