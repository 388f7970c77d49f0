#include "graph/demand_ball.hpp"

#include <algorithm>
#include <limits>

namespace spadework::graph {

namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();

/// The vertex an arc leads to.
VertexId head_of(const SearchNetwork& network, ArcId arc) {
    return arc % 2 == 0 ? network.head[edge_of(arc)] : network.tail[edge_of(arc)];
}

}  // namespace

template <class Real>
BallBuilder<Real>::BallBuilder(const SearchNetwork& network)
    : network_(network),
      price_(2 * network.edge_count(), 0),
      label_(network.vertex_count, kFar),
      number_(network.vertex_count, kNone),
      queue_(network.vertex_count) {}

template <class Real>
DemandBall<Real> BallBuilder<Real>::build(std::int32_t demand, const std::vector<PathLength>& to_root,
                                          const std::vector<std::uint32_t>& root_options,
                                          std::span<Holding<Real>> holdings, BallExtent extent) {
    set_prices(holdings, true);
    const PathRate& rate = network_.rate[demand];
    DemandBall<Real> ball;
    ball.vertices.push_back(network_.demand_at[demand]);
    ball.offset = potential(rate, to_root, network_.demand_at[demand]);
    settle_vertices(ball, rate, to_root, extent);
    write_arcs(ball, rate, to_root);
    if (!network_.one_measure) write_twins(ball);
    for (const std::uint32_t option : root_options) {
        const std::uint32_t number = number_[network_.root_at[option]];
        if (number != kNone) ball.roots.push_back({number, option});
    }
    ball.all_roots = ball.roots.size() == root_options.size();
    for (Holding<Real>& holding : holdings) {
        holding.place = place_of(ball, holding.arc);
        if (holding.place == kNoArc && !network_.one_measure) holding.place = place_of(ball, holding.arc ^ 1);
    }
    for (const VertexId v : ball.vertices)
        number_[v] = kNone;
    set_prices(holdings, false);
    return ball;
}

template <class Real>
void BallBuilder<Real>::set_prices(std::span<const Holding<Real>> holdings, bool on) {
    for (const Holding<Real>& holding : holdings) {
        price_[holding.arc] = on ? holding.price : Real{0};
        if (!network_.one_measure) price_[holding.arc ^ 1] = price_[holding.arc];
    }
}

template <class Real>
std::uint32_t BallBuilder<Real>::place_of(const DemandBall<Real>& ball, ArcId arc) const {
    const VertexId head = head_of(network_, arc);
    const std::uint32_t number = number_[head];
    if (number == kNone) return kNoArc;
    std::uint32_t place = ball.first[number];
    for (const Step& step : network_.steps.from(head)) {
        if (arc_from(network_, step.edge, step.to) == arc) break;
        ++place;
    }
    return ball.twin.empty() ? place : std::min(place, ball.twin[place]);
}

template <class Real>
void BallBuilder<Real>::settle_vertices(DemandBall<Real>& ball, const PathRate& rate,
                                        const std::vector<PathLength>& to_root, BallExtent extent) {
    const VertexId start = ball.vertices.front();
    ball.vertices.clear();
    label_[start] = 0.0;
    met_.push_back(start);
    queue_.push_or_lower(start, 0.0);
    while (!queue_.empty() && queue_.top_key() <= extent.radius) {
        const VertexId here = queue_.pop();
        number_[here] = static_cast<std::uint32_t>(ball.vertices.size());
        ball.vertices.push_back(here);
        const double potential_here = potential(rate, to_root, here);
        for (const Step& step : network_.steps.from(here)) {
            const double own =
                charge(rate, network_.reach[step.edge]) + potential(rate, to_root, step.to) - potential_here;
            const double price = price_[arc_from(network_, step.edge, step.to)];
            const double along = label_[here] + std::max(own, 0.0) + extent.price_share * price;
            if (along >= label_[step.to]) continue;
            if (label_[step.to] == kFar) met_.push_back(step.to);
            label_[step.to] = along;
            queue_.push_or_lower(step.to, along);
        }
    }
    queue_.clear();
    for (const VertexId v : met_)
        label_[v] = kFar;
    met_.clear();
    ball.vertices.shrink_to_fit();
}

template <class Real>
void BallBuilder<Real>::write_arcs(DemandBall<Real>& ball, const PathRate& rate,
                                   const std::vector<PathLength>& to_root) {
    std::size_t arc_count = 0;
    for (const VertexId v : ball.vertices)
        arc_count += network_.steps.from(v).size();
    ball.arcs.reserve(arc_count);
    ball.first.reserve(ball.vertices.size() + 1);
    ball.first.push_back(0);
    for (const VertexId here : ball.vertices) {
        const double potential_here = potential(rate, to_root, here);
        for (const Step& step : network_.steps.from(here)) {
            const double own =
                charge(rate, network_.reach[step.edge]) + potential(rate, to_root, step.to) - potential_here;
            const std::uint32_t tail = number_[step.to] == kNone ? ball.outside() : number_[step.to];
            ball.arcs.push_back({static_cast<Real>(std::max(own, 0.0)), tail});
        }
        ball.first.push_back(static_cast<std::uint32_t>(ball.arcs.size()));
    }
}

template <class Real>
void BallBuilder<Real>::write_twins(DemandBall<Real>& ball) {
    ball.twin.assign(ball.arcs.size(), kNoArc);
    ball.twin_charge.assign(ball.arcs.size(), 0);
    std::vector<std::pair<ArcId, std::uint32_t>> by_arc;
    for (std::uint32_t head = 0; head < ball.outside(); ++head) {
        for (std::uint32_t p = ball.first[head]; p < ball.first[head + 1]; ++p)
            by_arc.push_back({arc_at(network_, ball, head, p), p});
    }
    std::sort(by_arc.begin(), by_arc.end());
    for (std::size_t i = 0; i + 1 < by_arc.size(); ++i) {
        const auto [arc, place] = by_arc[i];
        const auto [next_arc, next_place] = by_arc[i + 1];
        if (edge_of(arc) != edge_of(next_arc)) continue;
        ball.twin[place] = next_place;
        ball.twin[next_place] = place;
        ball.twin_charge[place] = ball.arcs[next_place].cost;
        ball.twin_charge[next_place] = ball.arcs[place].cost;
    }
}

template class BallBuilder<float>;
template class BallBuilder<double>;

}  // namespace spadework::graph
