#include "site_file/edge_search.hpp"

namespace spadework::site_file {

EdgeSearch::EdgeSearch(const std::vector<LineFeature>& lines, const std::vector<int>& part_of_line, int part,
                       const LocalPlane& plane)
    : plane_(plane) {
    std::vector<Stretch> stretches;
    for (std::size_t line = 0; line < lines.size(); ++line) {
        if (part_of_line[line] != part) continue;
        const std::vector<Position>& points = lines[line].points;
        for (std::size_t edge = 0; edge + 1 < points.size(); ++edge) {
            edges_.push_back({line, edge});
            stretches.push_back({plane.to_plane(points[edge]), plane.to_plane(points[edge + 1])});
        }
    }
    search_.emplace(std::move(stretches));
}

std::optional<Attachment> EdgeSearch::nearest(const SpotFeature& spot) const {
    // Edges are numbered by line, then along it.
    const auto found = search_->nearest(sides_on_plane(spot, plane_));
    if (!found) return std::nullopt;
    const Edge& edge = edges_[found->stretch];
    return Attachment{edge.line,
                      edge.edge,
                      found->nearest.share,
                      plane_.from_plane(found->nearest.on_first),
                      plane_.from_plane(found->nearest.on_second),
                      found->nearest.metres};
}

std::vector<Stretch> sides_on_plane(const SpotFeature& spot, const LocalPlane& plane) {
    std::vector<Stretch> sides = sides_of(spot.rings);
    for (Stretch& side : sides)
        side = {plane.to_plane(side.from), plane.to_plane(side.to)};
    return sides;
}

}  // namespace spadework::site_file
