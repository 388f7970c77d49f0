#include "graph/ball_search.hpp"

#include <algorithm>
#include <bit>
#include <limits>

namespace spadework::graph {

namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr double kRounding = 1e-10;  ///< Sums along one path in two orders differ by less.
constexpr std::size_t kBits = 64;

/// Follows next arcs from `from` to the demand.
template <class Real>
void trace(const SearchNetwork& network, const DemandBall<Real>& ball, const std::vector<std::uint32_t>& next_arc,
           const std::vector<std::uint32_t>& next_vertex, std::uint32_t from, std::vector<BallStep>& path) {
    path.clear();
    for (std::uint32_t here = from; here != 0;) {
        const std::uint32_t place = next_arc[here];
        here = next_vertex[here];
        path.push_back({place, arc_at(network, ball, here, place)});
    }
}

template <class Real>
class LabelSweep {
public:
    LabelSweep(const DemandBall<Real>& ball, BallScratch& scratch)
        : ball_(ball), scratch_(scratch), outside_(ball.outside()) {
        const std::size_t places = static_cast<std::size_t>(outside_) + 1;
        if (scratch.label.size() < places) {
            scratch.label.resize(places);
            scratch.next_arc.resize(places);
            scratch.next_vertex.resize(places);
            scratch.waiting.resize(places / kBits + 1, 0);
        }
        std::fill_n(scratch.label.begin(), places, kFar);
    }

    /// Labels above the limit are of no use.
    void lower_limit(double limit) { limit_ = std::min(limit_, limit); }

    /// A label here is a limit for all others.
    void take_as_goal(std::uint32_t vertex) {
        goal_ = vertex;
        if (vertex == 0) lower_limit(0.0);
    }

    void run() {
        scratch_.label[0] = 0.0;
        scratch_.waiting[0] |= 1;
        const std::size_t words = outside_ / kBits + 1;
        for (std::size_t w = 0; w < words;) {
            const std::uint64_t word = scratch_.waiting[w];
            if (word == 0) {
                ++w;
                continue;
            }
            scratch_.waiting[w] = word & (word - 1);
            w = expand(static_cast<std::uint32_t>(w * kBits) + static_cast<std::uint32_t>(std::countr_zero(word)), w);
        }
    }

private:
    /// Looks at the arcs into a vertex; returns the first word with a vertex that waits, starting at word `w`.
    std::size_t expand(std::uint32_t here, std::size_t w) {
        const double so_far = scratch_.label[here];
        if (so_far > limit_) return w;
        const BallArc<Real>* const end = ball_.arcs.data() + ball_.first[here + 1];
        for (const BallArc<Real>* arc = ball_.arcs.data() + ball_.first[here]; arc != end; ++arc) {
            const double along = so_far + static_cast<double>(arc->cost);
            if (along > limit_ || along >= scratch_.label[arc->tail]) continue;
            const std::uint32_t tail = arc->tail;
            scratch_.label[tail] = along;
            scratch_.next_arc[tail] = static_cast<std::uint32_t>(arc - ball_.arcs.data());
            scratch_.next_vertex[tail] = here;
            if (tail == outside_ || tail == goal_) {
                limit_ = along;
                if (tail == outside_) continue;
            }
            scratch_.waiting[tail / kBits] |= std::uint64_t{1} << (tail % kBits);
            w = std::min<std::size_t>(w, tail / kBits);
        }
        return w;
    }

    const DemandBall<Real>& ball_;
    BallScratch& scratch_;
    std::uint32_t outside_;
    std::uint32_t goal_ = kNoArc;
    double limit_ = kFar;
};

/// What the path costs now.
template <class Real>
double cost_of_path(const DemandBall<Real>& ball, const std::vector<BallStep>& path) {
    double cost = 0.0;
    for (const BallStep& step : path)
        cost += static_cast<double>(ball.arcs[step.place].cost);
    return cost;
}

}  // namespace

template <class Real>
void search_ball(const SearchNetwork& network, const DemandBall<Real>& ball, bool one_option, BallScratch& scratch,
                 BallPaths& paths) {
    LabelSweep<Real> sweep(ball, scratch);
    if (one_option && !paths.path.empty()) sweep.lower_limit(cost_of_path(ball, paths.path) * (1.0 + kRounding));
    if (one_option && !ball.roots.empty()) sweep.take_as_goal(ball.roots.front().vertex);
    sweep.run();
    const std::uint32_t outside = ball.outside();
    const std::vector<double>& label = scratch.label;
    paths.outside_distance = label[outside];
    paths.root_distance.resize(ball.roots.size());
    for (std::size_t r = 0; r < ball.roots.size(); ++r)
        paths.root_distance[r] = std::min(label[ball.roots[r].vertex], label[outside]);
    if (one_option) {
        const bool root_is_nearer = !ball.roots.empty() && label[ball.roots.front().vertex] < label[outside];
        const std::uint32_t from = root_is_nearer ? ball.roots.front().vertex : outside;
        trace(network, ball, scratch.next_arc, scratch.next_vertex, from, paths.path);
    } else {
        paths.next_arc.assign(scratch.next_arc.begin(), scratch.next_arc.begin() + outside + 1);
        paths.next_vertex.assign(scratch.next_vertex.begin(), scratch.next_vertex.begin() + outside + 1);
    }
}

template <class Real>
void path_from(const SearchNetwork& network, const DemandBall<Real>& ball, const BallPaths& paths, std::int32_t root,
               std::vector<BallStep>& path) {
    const std::uint32_t from = root < 0 ? ball.outside() : ball.roots[root].vertex;
    trace(network, ball, paths.next_arc, paths.next_vertex, from, path);
}

template void search_ball(const SearchNetwork&, const DemandBall<float>&, bool, BallScratch&, BallPaths&);
template void search_ball(const SearchNetwork&, const DemandBall<double>&, bool, BallScratch&, BallPaths&);
template void path_from(const SearchNetwork&, const DemandBall<float>&, const BallPaths&, std::int32_t,
                        std::vector<BallStep>&);
template void path_from(const SearchNetwork&, const DemandBall<double>&, const BallPaths&, std::int32_t,
                        std::vector<BallStep>&);

}  // namespace spadework::graph
