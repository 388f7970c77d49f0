#include "survey/dead_ends.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>
#include <unordered_set>

#include "geometry/nearest_stretch.hpp"

namespace spadework::survey {

namespace {

/// A join that would come closer than this to a vertex of the line goes to the vertex.
constexpr double joins_at_vertex_metres = 0.25;

/// A dead end and what it could be led to.
struct Candidate {
    double metres;
    int vertex;
    std::size_t edge;  ///< That it is the end of.
    NearestStretch target;
};

std::size_t as_index(int number) {
    return static_cast<std::size_t>(number);
}

class DeadEnds {
public:
    DeadEnds(LineNetwork& network, const std::vector<Way>& ways, const LocalPlane& plane, double snap_metres)
        : network_(network),
          ways_(ways),
          plane_(plane),
          snap_metres_(snap_metres),
          edges_(edges_of(network)),
          incidence_(incidence_of(network, edges_)),
          search_(stretches()) {}

    std::vector<DeadEndJoin> join() {
        std::vector<Candidate> candidates = find_candidates();
        std::sort(candidates.begin(), candidates.end(), [](const Candidate& a, const Candidate& b) {
            return std::tie(a.metres, a.edge, a.vertex) < std::tie(b.metres, b.edge, b.vertex);
        });
        for (const Candidate& candidate : candidates) {
            if (!met_.contains(candidate.vertex)) lead_on(candidate);
        }
        apply_cuts(network_, std::move(cuts_));
        lengthen_chains();
        return std::move(joins_);
    }

private:
    [[nodiscard]] std::vector<Stretch> stretches() const {
        std::vector<Stretch> list;
        for (const Edge& edge : edges_)
            list.push_back(network_.on_plane(edge, plane_));
        return list;
    }

    [[nodiscard]] std::vector<Candidate> find_candidates() const {
        std::vector<Candidate> candidates;
        for (std::size_t i = 0; i < edges_.size(); ++i) {
            if (!way_of(i).ban.empty()) continue;
            for (const int vertex : {network_.from(edges_[i]), network_.to(edges_[i])}) {
                if (incidence_.degree(vertex) != 1) continue;
                if (const auto target = target_of(vertex, i))
                    candidates.push_back({target->nearest.metres, vertex, i, *target});
            }
        }
        return candidates;
    }

    [[nodiscard]] std::optional<NearestStretch> target_of(int vertex, std::size_t edge) const {
        const Position point = plane_.to_plane(network_.at(vertex));
        const std::set<int> near = vertices_near(vertex);
        const Level& level = way_of(edge).level;
        std::optional<NearestStretch> best;
        search_.tree().visit_near({point.x, point.y, point.x, point.y}, [&](std::int32_t number) {
            const double farthest = best ? best->nearest.metres : snap_metres_;
            if (number < 0) return farthest;
            const auto other = static_cast<std::size_t>(number);
            const Way& way = way_of(other);
            const bool may_meet = way.ban.empty() && (is_at_ground(way.level) || way.level == level) &&
                                  !near.contains(network_.from(edges_[other])) &&
                                  !near.contains(network_.to(edges_[other]));
            if (may_meet) improve_nearest(best, other, search_.stretches()[other], {{point, point}});
            return best ? best->nearest.metres : snap_metres_;
        });
        if (best && best->nearest.metres > snap_metres_) best.reset();
        return best;
    }

    /// Vertices that the network joins to this one within twice the snapping distance.
    [[nodiscard]] std::set<int> vertices_near(int start) const {
        std::set<int> near = {start};
        std::set<std::pair<double, int>> waiting = {{0, start}};
        while (!waiting.empty()) {
            const auto [metres, vertex] = *waiting.begin();
            waiting.erase(waiting.begin());
            near.insert(vertex);
            for (auto i = incidence_.first[as_index(vertex)]; i < incidence_.first[as_index(vertex) + 1]; ++i) {
                const auto edge = as_index(incidence_.edges[as_index(i)]);
                const int from = network_.from(edges_[edge]);
                const int next = from == vertex ? network_.to(edges_[edge]) : from;
                const Stretch& stretch = search_.stretches()[edge];
                const double there = metres + std::hypot(stretch.from.x - stretch.to.x, stretch.from.y - stretch.to.y);
                if (there <= 2 * snap_metres_ && !near.contains(next)) waiting.emplace(there, next);
            }
        }
        return near;
    }

    void lead_on(const Candidate& candidate) {
        const NearestStretch& target = candidate.target;
        const Edge& other = edges_[target.stretch];
        const Stretch& stretch = search_.stretches()[target.stretch];
        const Position& foot = target.nearest.on_first;
        const double to_start = std::hypot(foot.x - stretch.from.x, foot.y - stretch.from.y);
        const double to_end = std::hypot(foot.x - stretch.to.x, foot.y - stretch.to.y);
        int vertex = to_start <= to_end ? network_.from(other) : network_.to(other);
        if (std::min(to_start, to_end) > joins_at_vertex_metres) {
            vertex = network_.grid.vertex_at(rounded_degrees(plane_.from_plane(foot)));
            cuts_.push_back({other, target.nearest.share, vertex});
        }
        if (vertex == candidate.vertex) return;
        met_.insert(vertex);
        led_on_.push_back({candidate.vertex, edges_[candidate.edge].chain, vertex});
        joins_.push_back({network_.at(candidate.vertex), network_.at(vertex), way_number(candidate.edge),
                          way_number(target.stretch), candidate.metres});
    }

    void lengthen_chains() {
        for (const auto& [dead_end, chain, to] : led_on_) {
            std::vector<int>& vertices = network_.chains[as_index(chain)].vertices;
            if (vertices.back() == dead_end) {
                vertices.push_back(to);
            } else if (vertices.front() == dead_end) {
                vertices.insert(vertices.begin(), to);
            }
        }
    }

    [[nodiscard]] int way_number(std::size_t edge) const { return network_.chains[as_index(edges_[edge].chain)].way; }
    [[nodiscard]] const Way& way_of(std::size_t edge) const { return ways_[as_index(way_number(edge))]; }

    struct LedOn {
        int dead_end;
        int chain;
        int to;
    };

    LineNetwork& network_;
    const std::vector<Way>& ways_;
    const LocalPlane& plane_;
    double snap_metres_;
    std::vector<Edge> edges_;
    Incidence incidence_;
    StretchSearch search_;
    std::unordered_set<int> met_;  ///< Dead ends that another was led to. Only looked up, never walked.
    std::vector<Cut> cuts_;
    std::vector<LedOn> led_on_;
    std::vector<DeadEndJoin> joins_;
};

}  // namespace

std::vector<DeadEndJoin> join_dead_ends(LineNetwork& network, const std::vector<Way>& ways, const LocalPlane& plane,
                                        double snap_metres) {
    if (snap_metres <= 0 || network.chains.empty()) return {};
    return DeadEnds(network, ways, plane, snap_metres).join();
}

}  // namespace spadework::survey
