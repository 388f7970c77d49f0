#include "site_file/edge_search.hpp"

#include <algorithm>
#include <limits>
#include <tuple>
#include <utility>

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/box.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/index/rtree.hpp>

namespace spadework::site_file {

namespace {

using Point = boost::geometry::model::d2::point_xy<double>;
using Box = boost::geometry::model::box<Point>;
using Entry = std::pair<Box, std::size_t>;
using BoxTree = boost::geometry::index::rtree<Entry, boost::geometry::index::quadratic<16>>;

struct Edge {
    std::size_t line;
    std::size_t edge;
    Stretch stretch;
};

Box box_around(const Stretch& stretch, double margin) {
    const auto [left, right] = std::minmax(stretch.from.x, stretch.to.x);
    const auto [low, high] = std::minmax(stretch.from.y, stretch.to.y);
    return {Point(left - margin, low - margin), Point(right + margin, high + margin)};
}

/// Nearer; as near on a lower line, on a lower edge or earlier on the same edge.
bool is_better(const Edge& edge, const Nearest& found, const Attachment& best) {
    return std::tie(found.metres, edge.line, edge.edge, found.share) <
           std::tie(best.metres, best.line, best.edge, best.share);
}

}  // namespace

struct EdgeSearch::Tree {
    std::vector<Edge> edges;
    BoxTree boxes;

    /// Distance from a point to the nearest edge: no outline that holds the point is farther.
    [[nodiscard]] double distance_from(const Position& at) const {
        double best = std::numeric_limits<double>::infinity();
        const Point point(at.x, at.y);
        const auto everything = static_cast<unsigned>(edges.size());
        for (auto it = boxes.qbegin(boost::geometry::index::nearest(point, everything)); it != boxes.qend(); ++it) {
            if (boost::geometry::distance(point, it->first) > best) break;
            best = std::min(best, nearest_points(edges[it->second].stretch, {at, at}).metres);
        }
        return best;
    }
};

EdgeSearch::EdgeSearch(const std::vector<LineFeature>& lines, const std::vector<int>& part_of_line, int part,
                       const LocalPlane& plane)
    : tree_(std::make_unique<Tree>()), plane_(plane) {
    std::vector<Entry> entries;
    for (std::size_t line = 0; line < lines.size(); ++line) {
        if (part_of_line[line] != part) continue;
        const std::vector<Position>& points = lines[line].points;
        for (std::size_t edge = 0; edge + 1 < points.size(); ++edge) {
            const Stretch stretch{plane.to_plane(points[edge]), plane.to_plane(points[edge + 1])};
            entries.emplace_back(box_around(stretch, 0), tree_->edges.size());
            tree_->edges.push_back({line, edge, stretch});
        }
    }
    tree_->boxes = BoxTree(entries);
}

EdgeSearch::~EdgeSearch() = default;

std::optional<Attachment> EdgeSearch::nearest(const SpotFeature& spot) const {
    if (tree_->edges.empty()) return std::nullopt;
    const std::vector<Stretch> sides = sides_on_plane(spot, plane_);
    const double reach = tree_->distance_from(sides.front().from) * (1 + 1e-9) + 1e-6;
    std::vector<Entry> candidates;
    for (const Stretch& side : sides)
        tree_->boxes.query(boost::geometry::index::intersects(box_around(side, reach)), std::back_inserter(candidates));
    std::sort(candidates.begin(), candidates.end(), [](const Entry& a, const Entry& b) { return a.second < b.second; });
    const auto same = [](const Entry& a, const Entry& b) { return a.second == b.second; };
    candidates.erase(std::unique(candidates.begin(), candidates.end(), same), candidates.end());
    std::optional<Attachment> best;
    for (const Entry& candidate : candidates) {
        const Edge& edge = tree_->edges[candidate.second];
        for (const Stretch& side : sides) {
            const Nearest found = nearest_points(edge.stretch, side);
            if (best && !is_better(edge, found, *best)) continue;
            best = Attachment{edge.line,
                              edge.edge,
                              found.share,
                              plane_.from_plane(found.on_first),
                              plane_.from_plane(found.on_second),
                              found.metres};
        }
    }
    return best;
}

std::vector<Stretch> sides_on_plane(const SpotFeature& spot, const LocalPlane& plane) {
    std::vector<Stretch> sides = sides_of(spot.rings);
    for (Stretch& side : sides)
        side = {plane.to_plane(side.from), plane.to_plane(side.to)};
    return sides;
}

}  // namespace spadework::site_file
