#pragma once

#include <optional>
#include <vector>

#include "geometry/nearest_stretch.hpp"
#include "scenario/local_plane.hpp"
#include "site_file/geojson_features.hpp"

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

/// Finds the edge of a network nearest to an outline, on a local plane. Equal distances go to the lower line, then the
/// lower edge, then the earlier point.
class EdgeSearch {
public:
    /// Over the lines whose entry in `part_of_line` is `part`. The plane must outlive the search.
    EdgeSearch(const std::vector<LineFeature>& lines, const std::vector<int>& part_of_line, int part,
               const LocalPlane& plane);

    /// Nearest edge to a spot's outline; nothing when there are no edges.
    [[nodiscard]] std::optional<Attachment> nearest(const SpotFeature& spot) const;

private:
    struct Edge {
        std::size_t line;
        std::size_t edge;
    };
    std::vector<Edge> edges_;
    std::optional<StretchSearch> search_;
    const LocalPlane& plane_;
};

/// Sides of a spot's outline on the plane.
std::vector<Stretch> sides_on_plane(const SpotFeature& spot, const LocalPlane& plane);

}  // namespace spadework::site_file
