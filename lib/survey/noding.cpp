#include "survey/noding.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/segment.hpp>

#include "geometry/box_tree.hpp"
#include "geometry/plane_geometry.hpp"

namespace spadework::survey {

namespace {

namespace bg = boost::geometry;
using PlanePoint = bg::model::d2::point_xy<double>;
using PlaneSegment = bg::model::segment<PlanePoint>;

/// Vertices closer than this to another line lie on it.
constexpr double on_line_metres = 0.02;
constexpr int most_rounds = 8;

PlaneSegment segment_of(const Stretch& stretch) {
    return {{stretch.from.x, stretch.from.y}, {stretch.to.x, stretch.to.y}};
}

/// Where two stretches cross in one point.
std::optional<Position> crossing_point(const Stretch& a, const Stretch& b) {
    std::vector<PlanePoint> points;
    bg::intersection(segment_of(a), segment_of(b), points);
    if (points.size() != 1) return std::nullopt;
    return Position{points.front().x(), points.front().y()};
}

double metres(const Position& a, const Position& b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

double share_of(const Stretch& stretch, const Position& at) {
    const double whole = metres(stretch.from, stretch.to);
    return whole > 0 ? metres(stretch.from, at) / whole : 0;
}

class Noder {
public:
    Noder(LineNetwork& network, const std::vector<Way>& ways, const LocalPlane& plane)
        : network_(network), ways_(ways), plane_(plane), changed_(network.chains.size(), 1) {}

    Noding node() {
        for (int round = 0; round < most_rounds; ++round) {
            find_cuts();
            if (merges_.empty() && cuts_.empty()) break;
            if (merges_.empty()) {
                changed_ = apply_cuts(network_, std::move(cuts_));
            } else {
                merge_vertices();
            }
            merges_.clear();
            cuts_.clear();
        }
        settle(noding_.joined);
        settle(noding_.apart);
        return std::move(noding_);
    }

private:
    void find_cuts() {
        edges_ = edges_of(network_);
        stretches_.clear();
        for (const Edge& edge : edges_)
            stretches_.push_back(network_.on_plane(edge, plane_));
        const BoxTree tree(stretches_);
        for (std::size_t i = 0; i < edges_.size(); ++i) {
            if (changed_[static_cast<std::size_t>(edges_[i].chain)] == 0) continue;
            tree.visit_near(box_around(stretches_[i]), [&](std::int32_t other) {
                if (other >= 0) look_at(i, static_cast<std::size_t>(other));
                return on_line_metres;
            });
        }
    }

    /// Each pair once: from the edge with the lower number, or from the one that changed.
    void look_at(std::size_t i, std::size_t k) {
        if (i == k) return;
        if (k < i && changed_[static_cast<std::size_t>(edges_[k].chain)] != 0) return;
        consider(std::min(i, k), std::max(i, k));
    }

    void consider(std::size_t i, std::size_t k) {
        const int ends[] = {network_.from(edges_[i]), network_.to(edges_[i])};
        const int other_ends[] = {network_.from(edges_[k]), network_.to(edges_[k])};
        const bool same_level = way_of(i).level == way_of(k).level;
        const bool share_a_vertex = ends[0] == other_ends[0] || ends[0] == other_ends[1] || ends[1] == other_ends[0] ||
                                    ends[1] == other_ends[1];
        if (same_level) {
            bool touches = false;
            touches = put_on_line(ends[0], stretches_[i].from, k, i) || touches;
            touches = put_on_line(ends[1], stretches_[i].to, k, i) || touches;
            touches = put_on_line(other_ends[0], stretches_[k].from, i, k) || touches;
            touches = put_on_line(other_ends[1], stretches_[k].to, i, k) || touches;
            if (touches || share_a_vertex) return;
        }
        if (share_a_vertex) return;
        const auto at = crossing_point(stretches_[i], stretches_[k]);
        if (!at) return;
        const Crossing crossing{plane_.from_plane(*at), edge_way(i), edge_way(k)};
        if (!same_level) {
            noding_.apart.push_back(crossing);
            return;
        }
        const int vertex = network_.grid.vertex_at(rounded_degrees(crossing.at));
        cuts_.push_back({edges_[i], share_of(stretches_[i], *at), vertex});
        cuts_.push_back({edges_[k], share_of(stretches_[k], *at), vertex});
        noding_.joined.push_back(crossing);
    }

    /// Whether an end of `owner` lies on the edge without being one of its ends; then it is to be put into it, or made
    /// one with the end that it lies on.
    bool put_on_line(int vertex, const Position& point, std::size_t edge, std::size_t owner) {
        const int from = network_.from(edges_[edge]);
        const int to = network_.to(edges_[edge]);
        if (vertex == from || vertex == to) return false;
        const Stretch& stretch = stretches_[edge];
        if (metres_apart(box_around(stretch), {point.x, point.y, point.x, point.y}) > on_line_metres) return false;
        const Nearest nearest = nearest_points(stretch, {point, point});
        if (nearest.metres > on_line_metres) return false;
        const double to_start = metres(point, stretch.from);
        const double to_end = metres(point, stretch.to);
        if (std::min(to_start, to_end) <= on_line_metres) {
            merges_.emplace_back(vertex, to_start <= to_end ? from : to);
        } else {
            cuts_.push_back({edges_[edge], nearest.share, vertex});
        }
        if (edge_way(owner) != edge_way(edge))
            noding_.joined.push_back({network_.at(vertex), edge_way(owner), edge_way(edge)});
        return true;
    }

    /// Makes vertices that lie within reach of each other one: the one with the lowest number stays. Cuts found with
    /// them refer to steps that may go; the chains they are in are looked at again.
    void merge_vertices() {
        std::vector<int> stands_for(network_.grid.at().size());
        for (std::size_t i = 0; i < stands_for.size(); ++i)
            stands_for[i] = static_cast<int>(i);
        const auto root = [&stands_for](int vertex) {
            while (stands_for[static_cast<std::size_t>(vertex)] != vertex)
                vertex = stands_for[static_cast<std::size_t>(vertex)];
            return vertex;
        };
        for (const auto& [a, b] : merges_) {
            const auto [low, high] = std::minmax({root(a), root(b)});
            stands_for[static_cast<std::size_t>(high)] = low;
        }
        changed_.assign(network_.chains.size(), 0);
        for (const Cut& cut : cuts_)
            changed_[static_cast<std::size_t>(cut.edge.chain)] = 1;
        for (std::size_t i = 0; i < network_.chains.size(); ++i) {
            std::vector<int>& vertices = network_.chains[i].vertices;
            for (int& vertex : vertices) {
                const int now = root(vertex);
                if (now != vertex) changed_[i] = 1;
                vertex = now;
            }
            vertices.erase(std::unique(vertices.begin(), vertices.end()), vertices.end());
        }
    }

    /// In reading order, each crossing once: looking again after a round finds it a little beside where it was.
    void settle(std::vector<Crossing>& crossings) const {
        constexpr double same_place_metres = 0.1;
        for (Crossing& crossing : crossings) {
            crossing.at = rounded_degrees(crossing.at);
            if (crossing.way > crossing.other_way) std::swap(crossing.way, crossing.other_way);
        }
        std::sort(crossings.begin(), crossings.end(), [](const Crossing& a, const Crossing& b) {
            return std::tie(a.way, a.other_way, a.at.x, a.at.y) < std::tie(b.way, b.other_way, b.at.x, b.at.y);
        });
        const auto is_same = [this](const Crossing& a, const Crossing& b) {
            return a.way == b.way && a.other_way == b.other_way &&
                   metres(plane_.to_plane(a.at), plane_.to_plane(b.at)) <= same_place_metres;
        };
        crossings.erase(std::unique(crossings.begin(), crossings.end(), is_same), crossings.end());
    }

    [[nodiscard]] int edge_way(std::size_t edge) const {
        return network_.chains[static_cast<std::size_t>(edges_[edge].chain)].way;
    }
    [[nodiscard]] const Way& way_of(std::size_t edge) const { return ways_[static_cast<std::size_t>(edge_way(edge))]; }

    LineNetwork& network_;
    const std::vector<Way>& ways_;
    const LocalPlane& plane_;
    std::vector<char> changed_;  ///< By chain: since the last round.
    std::vector<Edge> edges_;
    std::vector<Stretch> stretches_;
    std::vector<Cut> cuts_;
    std::vector<std::pair<int, int>> merges_;
    Noding noding_;
};

}  // namespace

Noding node_crossings(LineNetwork& network, const std::vector<Way>& ways, const LocalPlane& plane) {
    return Noder(network, ways, plane).node();
}

}  // namespace spadework::survey
