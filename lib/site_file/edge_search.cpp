#include "site_file/edge_search.hpp"

#include <limits>
#include <tuple>

namespace spadework::site_file {

EdgeSearch::EdgeSearch(const std::vector<LineFeature>& lines, const std::vector<int>& part_of_line, int part,
                       const LocalPlane& plane)
    : plane_(plane) {
    for (std::size_t line = 0; line < lines.size(); ++line) {
        if (part_of_line[line] != part) continue;
        const std::vector<Position>& points = lines[line].points;
        for (std::size_t edge = 0; edge + 1 < points.size(); ++edge) {
            edges_.push_back({line, edge});
            stretches_.push_back({plane.to_plane(points[edge]), plane.to_plane(points[edge + 1])});
        }
    }
    tree_.emplace(stretches_);
}

std::optional<Attachment> EdgeSearch::nearest(const SpotFeature& spot) const {
    if (edges_.empty()) return std::nullopt;
    const std::vector<Stretch> sides = sides_on_plane(spot, plane_);
    Box outline = box_around(sides.front());
    for (const Stretch& side : sides)
        outline = box_around(outline, box_around(side));
    Nearest best{std::numeric_limits<double>::infinity(), 0, {}, {}};
    std::size_t best_edge = edges_.size();
    tree_->visit_near(outline, [&](std::int32_t number) {
        if (number < 0) return best.metres;
        const auto edge = static_cast<std::size_t>(number);
        for (const Stretch& side : sides) {
            const Nearest found = nearest_points(stretches_[edge], side);
            // Edges are numbered by line, then along it.
            if (std::tie(found.metres, edge, found.share) < std::tie(best.metres, best_edge, best.share)) {
                best = found;
                best_edge = edge;
            }
        }
        return best.metres;
    });
    return Attachment{edges_[best_edge].line,
                      edges_[best_edge].edge,
                      best.share,
                      plane_.from_plane(best.on_first),
                      plane_.from_plane(best.on_second),
                      best.metres};
}

std::vector<Stretch> sides_on_plane(const SpotFeature& spot, const LocalPlane& plane) {
    std::vector<Stretch> sides = sides_of(spot.rings);
    for (Stretch& side : sides)
        side = {plane.to_plane(side.from), plane.to_plane(side.to)};
    return sides;
}

}  // namespace spadework::site_file
