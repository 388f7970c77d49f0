#include "graph/ball_search.hpp"

#include <algorithm>
#include <bit>
#include <limits>

namespace spadework::graph {

namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();
constexpr double kRounding = 1e-10;  ///< Sums along one path in two orders differ by less.
constexpr std::size_t kBits = 64;

}  // namespace

void trace(const std::vector<std::uint32_t>& next_place, const std::vector<std::uint32_t>& next_vertex,
           std::uint32_t from, std::vector<std::uint32_t>& path) {
    path.clear();
    for (std::uint32_t here = from; here != 0; here = next_vertex[here])
        path.push_back(next_place[here]);
}

template <class Real>
BallSearch<Real>::BallSearch(const InwardArcs& arcs, VertexId vertex_count, bool shared_by_directions)
    : arcs_(arcs),
      prices_(arcs, shared_by_directions),
      number_(vertex_count, kNone),
      label_(vertex_count + 1, kFar),
      next_place_(vertex_count + 1, 0),
      next_vertex_(vertex_count + 1, 0),
      waiting_(vertex_count / kBits + 1, 0) {}

template <class Real>
void BallSearch<Real>::run(const DemandBall& ball, const PathRate& rate, const HeldPrices<Real>& held, bool one_option,
                           BallPaths& paths) {
    rate_ = rate;
    begin(ball);
    prices_.lay(held);
    if (one_option && !paths.path.empty()) limit_ = cost_of_path(paths.path) * (1.0 + kRounding);
    if (one_option && !ball.roots.empty()) goal_ = ball.roots.front().vertex;
    if (goal_ == 0) limit_ = 0.0;
    sweep();
    prices_.clear(held);
    write(ball, one_option, paths);
    for (const std::uint32_t spot : ball.spots)
        number_[spot] = kNone;
}

template <class Real>
void BallSearch<Real>::begin(const DemandBall& ball) {
    spots_ = ball.spots.data();
    outside_ = ball.outside();
    goal_ = kNone;
    limit_ = kFar;
    for (std::uint32_t i = 0; i < outside_; ++i)
        number_[ball.spots[i]] = i;
    std::fill_n(label_.begin(), outside_ + 1, kFar);
}

template <class Real>
double BallSearch<Real>::cost_of_path(const std::vector<std::uint32_t>& path) const {
    double cost = 0.0;
    for (const std::uint32_t place : path)
        cost += arcs_.own_charge(rate_, place) + static_cast<double>(prices_.at(place));
    return cost;
}

template <class Real>
void BallSearch<Real>::sweep() {
    label_[0] = 0.0;
    waiting_[0] |= 1;
    const std::size_t words = outside_ / kBits + 1;
    for (std::size_t w = 0; w < words;) {
        const std::uint64_t word = waiting_[w];
        if (word == 0) {
            ++w;
            continue;
        }
        waiting_[w] = word & (word - 1);
        w = expand(static_cast<std::uint32_t>(w * kBits) + static_cast<std::uint32_t>(std::countr_zero(word)), w);
    }
}

/// Looks at the arcs into a vertex; returns the first word with a vertex that waits, starting at `word`.
template <class Real>
std::size_t BallSearch<Real>::expand(std::uint32_t here, std::size_t word) {
    const double so_far = label_[here];
    if (so_far > limit_) return word;
    const std::uint32_t end = arcs_.first[spots_[here] + 1];
    for (std::uint32_t place = arcs_.first[spots_[here]]; place < end; ++place) {
        const double along = so_far + arcs_.own_charge(rate_, place) + static_cast<double>(prices_.at(place));
        if (along > limit_) continue;
        const std::uint32_t tail = std::min(number_[arcs_.at[place].tail], outside_);
        if (along >= label_[tail]) continue;
        label_[tail] = along;
        next_place_[tail] = place;
        next_vertex_[tail] = here;
        if (tail == outside_ || tail == goal_) limit_ = along;
        if (tail == outside_) continue;
        waiting_[tail / kBits] |= std::uint64_t{1} << (tail % kBits);
        word = std::min<std::size_t>(word, tail / kBits);
    }
    return word;
}

template <class Real>
void BallSearch<Real>::write(const DemandBall& ball, bool one_option, BallPaths& paths) const {
    paths.outside_distance = label_[outside_];
    paths.root_distance.resize(ball.roots.size());
    for (std::size_t r = 0; r < ball.roots.size(); ++r)
        paths.root_distance[r] = std::min(label_[ball.roots[r].vertex], label_[outside_]);
    if (one_option) {
        const bool root_is_nearer = !ball.roots.empty() && label_[ball.roots.front().vertex] < label_[outside_];
        trace(next_place_, next_vertex_, root_is_nearer ? ball.roots.front().vertex : outside_, paths.path);
    } else {
        paths.next_place.assign(next_place_.begin(), next_place_.begin() + outside_ + 1);
        paths.next_vertex.assign(next_vertex_.begin(), next_vertex_.begin() + outside_ + 1);
    }
}

template class BallSearch<float>;
template class BallSearch<double>;

}  // namespace spadework::graph
