#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "scenario/local_plane.hpp"
#include "site_file/geojson_features.hpp"
#include "site_file/plane_geometry.hpp"

namespace spadework::site_file {

/// Where an outline comes nearest to a network of lines.
struct Attachment {
    std::size_t line = 0;
    std::size_t edge = 0;  ///< From point `edge` of the line to the next.
    double share = 0;      ///< How far along that edge, 0 to 1.
    Position foot;         ///< The point of the line, in degrees.
    Position entrance;     ///< The point of the outline, in degrees.
    double metres = 0;     ///< Between the two, on the local plane.
};

/// Finds the edge of a network nearest to an outline, by a tree of boxes (Boost.Geometry's R-tree) on a local plane.
/// Equal distances go to the lower line, then the lower edge, then the earlier point.
class EdgeSearch {
public:
    /// Over the lines whose entry in `part_of_line` is `part`.
    EdgeSearch(const std::vector<LineFeature>& lines, const std::vector<int>& part_of_line, int part,
               const LocalPlane& plane);
    ~EdgeSearch();
    EdgeSearch(const EdgeSearch&) = delete;
    EdgeSearch& operator=(const EdgeSearch&) = delete;

    /// Nearest edge to a spot's outline; nothing when there are no edges.
    [[nodiscard]] std::optional<Attachment> nearest(const SpotFeature& spot) const;

private:
    struct Tree;
    std::unique_ptr<Tree> tree_;
    const LocalPlane& plane_;
};

/// Sides of a spot's outline on the plane.
std::vector<Stretch> sides_on_plane(const SpotFeature& spot, const LocalPlane& plane);

}  // namespace spadework::site_file
