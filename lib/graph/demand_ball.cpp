#include "graph/demand_ball.hpp"

#include <algorithm>
#include <limits>

namespace spadework::graph {

namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();
constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();

}  // namespace

void search_ball(DemandBall& ball, BallScratch& scratch) {
    const auto outside = static_cast<std::uint32_t>(ball.vertices.size());
    scratch.queue.fit(outside + 1);
    if (scratch.label.size() <= outside) scratch.label.resize(outside + 1, kFar);
    std::vector<double>& label = scratch.label;
    label[0] = 0.0;
    scratch.met.assign(1, 0);
    scratch.queue.push_or_lower(0, 0.0);
    std::size_t roots_left = ball.roots.size();
    while (!scratch.queue.empty()) {
        const auto here = static_cast<std::uint32_t>(scratch.queue.pop());
        if (here == outside) break;
        roots_left -= ball.is_root[here] ? 1 : 0;
        if (roots_left == 0 && ball.all_roots) break;
        const double so_far = label[here];
        for (std::uint32_t p = ball.first[here]; p < ball.first[here + 1]; ++p) {
            const BallArc& arc = ball.arcs[p];
            const double along = so_far + arc.cost;
            if (along >= label[arc.tail]) continue;
            if (label[arc.tail] == kFar) scratch.met.push_back(arc.tail);
            label[arc.tail] = along;
            ball.next_arc[arc.tail] = p;
            ball.next_vertex[arc.tail] = here;
            scratch.queue.push_or_lower(static_cast<std::int32_t>(arc.tail), along);
        }
    }
    scratch.queue.clear();
    ball.outside_distance = label[outside];
    ball.root_distance.resize(ball.roots.size());
    for (std::size_t r = 0; r < ball.roots.size(); ++r) {
        ball.root_distance[r] = std::min(label[ball.roots[r].vertex], label[outside]);
    }
    for (const std::uint32_t v : scratch.met)
        label[v] = kFar;
}

void path_in_ball(const DemandBall& ball, std::int32_t root, std::vector<std::uint32_t>& path) {
    path.clear();
    auto here = root < 0 ? static_cast<std::uint32_t>(ball.vertices.size()) : ball.roots[root].vertex;
    while (here != 0) {
        path.push_back(ball.next_arc[here]);
        here = ball.next_vertex[here];
    }
}

BallBuilder::BallBuilder(const SearchNetwork& network)
    : network_(network),
      price_(2 * network.edge_count(), 0.0),
      label_(network.vertex_count, kFar),
      number_(network.vertex_count, kNone),
      queue_(network.vertex_count) {}

DemandBall BallBuilder::build(std::int32_t demand, const std::vector<PathLength>& to_root,
                              const std::vector<std::uint32_t>& root_options, const std::vector<ArcPrice>& prices,
                              BallExtent extent) {
    for (const ArcPrice& p : prices)
        price_[p.arc] = p.price;
    const PathRate& rate = network_.rate[demand];
    DemandBall ball;
    ball.vertices.push_back(network_.demand_at[demand]);
    ball.offset = potential(rate, to_root, network_.demand_at[demand]);
    settle_vertices(ball, rate, to_root, extent);
    write_arcs(ball, rate, to_root);
    if (!network_.one_measure) write_twins(ball);
    ball.is_root.assign(ball.vertices.size(), 0);
    for (const std::uint32_t option : root_options) {
        const std::uint32_t number = number_[network_.root_at[option]];
        if (number == kNone) continue;
        ball.roots.push_back({number, option});
        ball.is_root[number] = 1;
    }
    ball.all_roots = ball.roots.size() == root_options.size();
    for (const VertexId v : ball.vertices)
        number_[v] = kNone;
    for (const ArcPrice& p : prices)
        price_[p.arc] = 0.0;
    return ball;
}

void BallBuilder::settle_vertices(DemandBall& ball, const PathRate& rate, const std::vector<PathLength>& to_root,
                                  BallExtent extent) {
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
}

void BallBuilder::write_arcs(DemandBall& ball, const PathRate& rate, const std::vector<PathLength>& to_root) {
    const auto outside = static_cast<std::uint32_t>(ball.vertices.size());
    std::size_t arc_count = 0;
    for (const VertexId v : ball.vertices)
        arc_count += network_.steps.from(v).size();
    ball.arcs.reserve(arc_count);
    ball.arc_ids.reserve(arc_count);
    ball.first.reserve(ball.vertices.size() + 1);
    ball.first.push_back(0);
    for (const VertexId here : ball.vertices) {
        const double potential_here = potential(rate, to_root, here);
        for (const Step& step : network_.steps.from(here)) {
            const double own =
                charge(rate, network_.reach[step.edge]) + potential(rate, to_root, step.to) - potential_here;
            const ArcId arc = arc_from(network_, step.edge, step.to);
            const std::uint32_t tail = number_[step.to] == kNone ? outside : number_[step.to];
            ball.arcs.push_back({std::max(own, 0.0), tail, kNoEntry});
            ball.arc_ids.push_back(arc);
        }
        ball.first.push_back(static_cast<std::uint32_t>(ball.arcs.size()));
    }
    ball.next_arc.assign(ball.vertices.size() + 1, 0);
    ball.next_vertex.assign(ball.vertices.size() + 1, 0);
}

void BallBuilder::write_twins(DemandBall& ball) {
    ball.twin.assign(ball.arcs.size(), kNoEntry);
    ball.twin_charge.assign(ball.arcs.size(), 0.0);
    std::vector<std::pair<ArcId, std::uint32_t>> by_arc;
    for (std::uint32_t p = 0; p < ball.arcs.size(); ++p)
        by_arc.push_back({ball.arc_ids[p], p});
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

}  // namespace spadework::graph
