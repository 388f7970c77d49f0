#include "graph/demand_ball.hpp"

#include <limits>

namespace spadework::graph {

namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();

}  // namespace

template <class Real>
BallBuilder<Real>::BallBuilder(const SearchNetwork& network, const InwardArcs& arcs)
    : network_(network),
      arcs_(arcs),
      prices_(arcs, !network.one_measure),
      label_(network.vertex_count, kFar),
      number_(network.vertex_count, kNone),
      queue_(network.vertex_count) {}

template <class Real>
DemandBall BallBuilder<Real>::build(std::size_t demand, const std::vector<PathLength>& to_root,
                                    const std::vector<std::uint32_t>& root_options, HeldPrices<Real>& held,
                                    BallExtent extent) {
    const VertexId start = network_.demand_at[demand];
    DemandBall ball;
    ball.offset = charge(network_.rate[demand], to_root[start]);
    prices_.lay(held);
    settle_vertices(ball, arcs_.spot_of[start], network_.rate[demand], extent);
    prices_.clear(held);
    for (const std::uint32_t option : root_options) {
        const std::uint32_t number = number_[arcs_.spot_of[network_.root_at[option]]];
        if (number != kNone) ball.roots.push_back({number, option});
    }
    ball.all_roots = ball.roots.size() == root_options.size();
    for (HeldPrice<Real>& one : held) {
        if (one.place != kNoArc && !leads_into_ball(one.place)) one = {};
    }
    for (const std::uint32_t spot : ball.spots)
        number_[spot] = kNone;
    return ball;
}

template <class Real>
bool BallBuilder<Real>::leads_into_ball(std::uint32_t place) const {
    const ArcId arc = arcs_.arc[place];
    const std::uint32_t head = arcs_.at[arcs_.place_of[arc ^ 1]].tail;
    return number_[head] != kNone || (!network_.one_measure && number_[arcs_.at[place].tail] != kNone);
}

template <class Real>
void BallBuilder<Real>::settle_vertices(DemandBall& ball, std::uint32_t start, const PathRate& rate,
                                        BallExtent extent) {
    label_[start] = 0.0;
    met_.push_back(start);
    queue_.push_or_lower(static_cast<std::int32_t>(start), 0.0);
    while (!queue_.empty() && queue_.top_key() <= extent.radius) {
        const auto here = static_cast<std::uint32_t>(queue_.pop());
        number_[here] = static_cast<std::uint32_t>(ball.spots.size());
        ball.spots.push_back(here);
        for (std::uint32_t place = arcs_.first[here]; place < arcs_.first[here + 1]; ++place) {
            const std::uint32_t tail = arcs_.at[place].tail;
            const double along = label_[here] + arcs_.own_charge(rate, place) +
                                 extent.price_share * static_cast<double>(prices_.at(place));
            if (along >= label_[tail]) continue;
            if (label_[tail] == kFar) met_.push_back(tail);
            label_[tail] = along;
            queue_.push_or_lower(static_cast<std::int32_t>(tail), along);
        }
    }
    queue_.clear();
    for (const std::uint32_t spot : met_)
        label_[spot] = kFar;
    met_.clear();
    ball.spots.shrink_to_fit();
}

template class BallBuilder<float>;
template class BallBuilder<double>;

}  // namespace spadework::graph
