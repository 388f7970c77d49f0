#include "graph/price_search.hpp"

#include <algorithm>
#include <numeric>

#include "graph/simplex_projection.hpp"

namespace spadework::graph {

namespace {

constexpr double kFlowKept = 1e-4;  ///< Smaller averaged flows are dropped.
constexpr std::size_t kBallBatch = 4;
constexpr std::size_t kPurseBatch = 512;

}  // namespace

PriceSearch::PriceSearch(const SearchNetwork& network, WorkerTeam& team, StepRule rule)
    : network_(network),
      team_(team),
      rule_(rule),
      roots_(network.root_at.size()),
      balls_(network.demand_at.size()),
      purses_(network.one_measure ? 2 * network.edge_count() : network.edge_count()),
      fresh_(network.demand_at.size()),
      flow_squares_(network.demand_at.size(), 0.0),
      scratch_(team.size()),
      paths_(team.size()),
      wishes_(team.size()),
      root_bounds_(network.root_at.size(), 0.0),
      factor_(rule.start_factor) {
    std::iota(roots_.begin(), roots_.end(), 0U);
    for (std::size_t w = 0; w < team.size(); ++w)
        builders_.emplace_back(network);
    set_potentials();
}

void PriceSearch::set_potentials() {
    std::vector<VertexId> from;
    for (const std::uint32_t r : roots_)
        from.push_back(network_.root_at[r]);
    to_root_ = shortest_reach(network_, from);
}

void PriceSearch::start(std::size_t towards_option) {
    const VertexId root = network_.root_at[towards_option];
    const std::vector<AscentPrices> ascent = dual_ascent(network_, root, shortest_reach(network_, {root}));
    PriceSet prices;
    std::vector<double> radius;
    for (const AscentPrices& paid : ascent) {
        prices.push_back(paid.prices);
        radius.push_back(roots_.size() > 1 ? std::numeric_limits<double>::infinity() : paid.paid);
    }
    build_balls(prices, PriceSet(prices.size()), radius);
}

void PriceSearch::build_balls(const PriceSet& prices, const PriceSet& flows, const std::vector<double>& radius) {
    team_.run(balls_.size(), kBallBatch, [&](std::size_t d, std::size_t worker) {
        const BallExtent extent{radius[d] * (1.0 + 1e-9), rule_.price_share};
        balls_[d] =
            builders_[worker].build(static_cast<std::int32_t>(d), to_root_, roots_, prices[d], flows[d], extent);
    });
    list_entries();
}

void PriceSearch::list_entries() {
    for (auto& purse : purses_)
        purse.clear();
    for (std::size_t d = 0; d < balls_.size(); ++d) {
        DemandBall& ball = balls_[d];
        for (std::uint32_t p = 0; p < ball.arcs.size(); ++p) {
            if (ball.arcs[p].price <= 0.0 && ball.flow[p] <= 0.0) continue;
            if (!ball.twin.empty() && ball.twin[p] < p) continue;
            ball.listed[p] = 1;
            ball.used.push_back(p);
            purses_[purse_of(ball.arcs[p].arc)].push_back({static_cast<std::uint32_t>(d), p});
        }
    }
}

void PriceSearch::search_all() {
    team_.run(balls_.size(), kBallBatch,
              [&](std::size_t d, std::size_t worker) { search_ball(balls_[d], scratch_[worker]); });
    for (const std::uint32_t r : roots_)
        root_bounds_[r] = network_.root_cost[r];
    double outside_sum = 0.0;
    for (const DemandBall& ball : balls_) {
        // Every root gets the outside's distance, roots in the ball the difference.
        const double base = ball.all_roots ? 0.0 : ball.outside_distance;
        outside_sum += ball.offset + base;
        for (std::size_t r = 0; r < ball.roots.size(); ++r) {
            root_bounds_[ball.roots[r].option] += ball.root_distance[r] - base;
        }
    }
    bound_ = std::numeric_limits<double>::infinity();
    for (const std::uint32_t r : roots_) {
        root_bounds_[r] += outside_sum;
        if (root_bounds_[r] >= bound_) continue;
        bound_ = root_bounds_[r];
        best_root_ = r;
    }
    if (bound_ > best_bound_) {
        best_bound_ = bound_;
        best_prices_ = present_prices();
        passes_without_gain_ = 0;
    } else if (++passes_without_gain_ >= rule_.patience) {
        factor_ *= rule_.decay;
        passes_without_gain_ = 0;
    }
}

PriceSet PriceSearch::present_prices() const {
    PriceSet prices(balls_.size());
    team_.run(balls_.size(), kBallBatch, [&](std::size_t d, std::size_t) {
        const DemandBall& ball = balls_[d];
        for (const std::uint32_t p : ball.used) {
            if (ball.arcs[p].price <= 0.0) continue;
            prices[d].push_back({ball.arcs[p].arc, ball.arcs[p].price});
            if (!network_.one_measure) prices[d].push_back({ball.arcs[p].arc ^ 1, ball.arcs[p].price});
        }
    });
    return prices;
}

std::int32_t PriceSearch::root_number(const DemandBall& ball) const {
    for (std::size_t r = 0; r < ball.roots.size(); ++r) {
        if (ball.roots[r].option != best_root_) continue;
        return ball.root_distance[r] < ball.outside_distance ? static_cast<std::int32_t>(r) : -1;
    }
    return -1;
}

double PriceSearch::move_flows(std::size_t d, std::size_t worker) {
    DemandBall& ball = balls_[d];
    const double weight = first_pass_ ? 1.0 : rule_.flow_weight;
    for (const std::uint32_t p : ball.used) {
        ball.flow[p] *= 1.0 - weight;
        if (ball.flow[p] < kFlowKept) ball.flow[p] = 0.0;
    }
    path_in_ball(ball, root_number(ball), paths_[worker]);
    fresh_[d].clear();
    for (std::uint32_t p : paths_[worker]) {
        if (!ball.twin.empty()) p = std::min(p, ball.twin[p]);
        if (network_.opening[edge_of(ball.arcs[p].arc)] <= 0.0) continue;
        ball.flow[p] += weight;
        if (ball.listed[p]) continue;
        ball.listed[p] = 1;
        ball.used.push_back(p);
        fresh_[d].push_back(p);
    }
    double squares = 0.0;
    for (const std::uint32_t p : ball.used)
        squares += ball.flow[p] * ball.flow[p];
    return squares;
}

void PriceSearch::set_price(DemandBall& ball, std::uint32_t place, double price) {
    ball.arcs[place].price = price;
    if (!ball.twin.empty() && ball.twin[place] < ball.arcs.size()) ball.arcs[ball.twin[place]].price = price;
}

void PriceSearch::project(std::size_t purse, double length) {
    std::vector<Entry>& entries = purses_[purse];
    thread_local std::vector<double> wishes;
    wishes.clear();
    for (const Entry& entry : entries) {
        const DemandBall& ball = balls_[entry.ball];
        wishes.push_back(ball.arcs[entry.place].price + length * ball.flow[entry.place]);
    }
    const double total = network_.opening[network_.one_measure ? purse / 2 : purse];
    const double cut = cut_to_fit(wishes, total);
    std::size_t kept = 0;
    for (const Entry& entry : entries) {
        DemandBall& ball = balls_[entry.ball];
        const double flow = ball.flow[entry.place];
        const double price = std::max(ball.arcs[entry.place].price + length * flow - cut, 0.0);
        set_price(ball, entry.place, price);
        if (price > 0.0 || flow > 0.0) {
            entries[kept++] = entry;
        } else {
            ball.listed[entry.place] = 0;
        }
    }
    entries.resize(kept);
}

void PriceSearch::step(double target) {
    team_.run(balls_.size(), kBallBatch,
              [&](std::size_t d, std::size_t worker) { flow_squares_[d] = move_flows(d, worker); });
    first_pass_ = false;
    double squares = 0.0;
    for (std::size_t d = 0; d < balls_.size(); ++d) {
        squares += flow_squares_[d];
        for (const std::uint32_t p : fresh_[d]) {
            purses_[purse_of(balls_[d].arcs[p].arc)].push_back({static_cast<std::uint32_t>(d), p});
        }
    }
    if (squares <= 0.0) return;
    const double length = factor_ * std::max(target - bound_, 0.0) / squares;
    team_.run(purses_.size(), kPurseBatch, [&](std::size_t purse, std::size_t) {
        if (!purses_[purse].empty()) project(purse, length);
    });
    team_.run(balls_.size(), kBallBatch, [&](std::size_t d, std::size_t) {
        DemandBall& ball = balls_[d];
        const auto gone = [&](std::uint32_t p) { return !ball.listed[p]; };
        ball.used.erase(std::remove_if(ball.used.begin(), ball.used.end(), gone), ball.used.end());
    });
}

void PriceSearch::drop_roots_above(double limit) {
    std::vector<std::uint32_t> left;
    for (const std::uint32_t r : roots_) {
        if (root_bounds_[r] <= limit) left.push_back(r);
    }
    if (left.empty() || left.size() == roots_.size()) return;
    dropping_prices_.push_back(present_prices());
    roots_ = std::move(left);
    best_bound_ = -std::numeric_limits<double>::infinity();
    rebuild_balls();
}

void PriceSearch::rebuild_balls() {
    const PriceSet prices = present_prices();
    PriceSet flows(balls_.size());
    std::vector<double> radius(balls_.size(), 0.0);
    for (std::size_t d = 0; d < balls_.size(); ++d) {
        const DemandBall& ball = balls_[d];
        for (const std::uint32_t p : ball.used)
            flows[d].push_back({ball.arcs[p].arc, ball.flow[p]});
        radius[d] = ball.outside_distance;
        double farthest = 0.0;
        for (std::size_t r = 0; r < ball.roots.size(); ++r)
            farthest = std::max(farthest, ball.root_distance[r]);
        if (ball.all_roots) radius[d] = farthest;
    }
    if (roots_.size() > 1) std::fill(radius.begin(), radius.end(), std::numeric_limits<double>::infinity());
    set_potentials();
    build_balls(prices, flows, radius);
}

std::size_t PriceSearch::ball_vertices() const {
    std::size_t sum = 0;
    for (const DemandBall& ball : balls_)
        sum += ball.vertices.size();
    return sum;
}

std::vector<double> PriceSearch::edge_use() const {
    std::vector<double> use(network_.edge_count(), 0.0);
    for (std::size_t purse = 0; purse < purses_.size(); ++purse) {
        double& edge = use[network_.one_measure ? purse / 2 : purse];
        for (const Entry& entry : purses_[purse])
            edge = std::max(edge, balls_[entry.ball].flow[entry.place]);
    }
    return use;
}

}  // namespace spadework::graph
