#include "graph/price_search.hpp"

#include <algorithm>
#include <numeric>

#include "graph/simplex_projection.hpp"

namespace spadework::graph {
namespace {

constexpr double kFlowKept = 1e-4;  ///< Smaller averaged flows are dropped.
constexpr std::size_t kBallBatch = 4;
constexpr std::size_t kPurseBatch = 512;

struct ArcMoney {
    double price = 0.0;
    double flow = 0.0;
};

}  // namespace

PriceSearch::PriceSearch(const SearchNetwork& network, WorkerTeam& team, StepRule rule)
    : network_(network),
      team_(team),
      rule_(rule),
      roots_(network.root_at.size()),
      balls_(network.demand_at.size()),
      purses_(network.one_measure ? 2 * network.edge_count() : network.edge_count()),
      fresh_(network.demand_at.size()),
      path_squares_(network.demand_at.size(), 0.0),
      flow_squares_(purses_.size(), 0.0),
      moved_squares_(purses_.size(), 0.0),
      scratch_(team.size()),
      paths_(team.size()),
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
        balls_[d] = builders_[worker].build(static_cast<std::int32_t>(d), to_root_, roots_, prices[d], extent);
    });
    list_entries(prices, flows);
}

void PriceSearch::list_entries(const PriceSet& prices, const PriceSet& flows) {
    for (auto& purse : purses_)
        purse.clear();
    std::vector<ArcMoney> money(2 * network_.edge_count());
    for (std::size_t d = 0; d < balls_.size(); ++d) {
        for (const ArcPrice& p : prices[d])
            money[p.arc].price = p.price;
        for (const ArcPrice& f : flows[d])
            money[f.arc].flow = f.price;
        const DemandBall& ball = balls_[d];
        for (std::uint32_t p = 0; p < ball.arcs.size(); ++p) {
            const ArcMoney& here = money[ball.arc_ids[p]];
            if (here.price <= 0.0 && here.flow <= 0.0) continue;
            if (!ball.twin.empty() && ball.twin[p] < p) continue;
            add_entry(static_cast<std::uint32_t>(d), p, here.price, here.flow);
        }
        for (const ArcPrice& p : prices[d])
            money[p.arc] = {};
        for (const ArcPrice& f : flows[d])
            money[f.arc] = {};
    }
    for (std::size_t purse = 0; purse < purses_.size(); ++purse) {
        flow_squares_[purse] = 0.0;
        for (const Entry& entry : purses_[purse])
            flow_squares_[purse] += entry.flow * entry.flow;
    }
}

void PriceSearch::add_entry(std::uint32_t d, std::uint32_t place, double price, double flow) {
    DemandBall& ball = balls_[d];
    std::vector<Entry>& purse = purses_[purse_of(ball.arc_ids[place])];
    ball.arcs[place].entry = static_cast<std::uint32_t>(purse.size());
    purse.push_back({d, place, ball.arcs[place].cost, price, flow});
    show_cost(purse.back());
}

void PriceSearch::show_cost(const Entry& entry) {
    DemandBall& ball = balls_[entry.ball];
    ball.arcs[entry.place].cost = entry.charge + entry.price;
    if (ball.twin.empty() || ball.twin[entry.place] == kNoEntry) return;
    BallArc& twin = ball.arcs[ball.twin[entry.place]];
    twin.cost = ball.twin_charge[entry.place] + entry.price;
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
    judge_bound();
}

void PriceSearch::judge_bound() {
    if (bound_ > best_bound_) {
        best_bound_ = bound_;
        best_prices_ = present_prices();
        passes_without_gain_ = 0;
        factor_ = std::min(factor_ * rule_.growth, std::max(factor_, rule_.start_factor));
    } else if (best_bound_ - bound_ > rule_.deepest_dive * (target_ - best_bound_) &&
               factor_ > rule_.start_factor * rule_.dive_floor) {
        factor_ *= rule_.dive_decay;
    } else if (++passes_without_gain_ >= rule_.patience) {
        factor_ *= rule_.decay;
        passes_without_gain_ = 0;
    }
}

PriceSet PriceSearch::present_prices() const {
    PriceSet prices(balls_.size());
    for (const auto& purse : purses_) {
        for (const Entry& entry : purse) {
            if (entry.price <= 0.0) continue;
            const ArcId arc = balls_[entry.ball].arc_ids[entry.place];
            prices[entry.ball].push_back({arc, entry.price});
            if (!network_.one_measure) prices[entry.ball].push_back({arc ^ 1, entry.price});
        }
    }
    return prices;
}

PriceSet PriceSearch::present_flows() const {
    PriceSet flows(balls_.size());
    for (const auto& purse : purses_) {
        for (const Entry& entry : purse) {
            if (entry.flow > 0.0) flows[entry.ball].push_back({balls_[entry.ball].arc_ids[entry.place], entry.flow});
        }
    }
    return flows;
}

std::int32_t PriceSearch::root_number(const DemandBall& ball) const {
    for (std::size_t r = 0; r < ball.roots.size(); ++r) {
        if (ball.roots[r].option != best_root_) continue;
        return ball.root_distance[r] < ball.outside_distance ? static_cast<std::int32_t>(r) : -1;
    }
    return -1;
}

void PriceSearch::follow_path(std::size_t d, std::size_t worker) {
    DemandBall& ball = balls_[d];
    const double weight = first_pass_ ? 1.0 : rule_.flow_weight;
    path_in_ball(ball, root_number(ball), paths_[worker]);
    fresh_[d].clear();
    double squares = 0.0;
    for (std::uint32_t p : paths_[worker]) {
        if (!ball.twin.empty()) p = std::min(p, ball.twin[p]);
        const ArcId arc = ball.arc_ids[p];
        if (network_.opening[edge_of(arc)] <= 0.0) continue;
        if (ball.arcs[p].entry == kNoEntry) {
            fresh_[d].push_back(p);
            squares += weight * weight;
            continue;
        }
        double& flow = purses_[purse_of(arc)][ball.arcs[p].entry].flow;
        squares += (flow + weight) * (flow + weight) - flow * flow;
        flow += weight;
    }
    path_squares_[d] = squares;
}

void PriceSearch::project(std::size_t purse, double length) {
    std::vector<Entry>& entries = purses_[purse];
    thread_local std::vector<double> wishes;
    wishes.clear();
    for (const Entry& entry : entries)
        wishes.push_back(entry.price + length * entry.flow);
    const double total = network_.opening[network_.one_measure ? purse / 2 : purse];
    const double cut = cut_to_fit(wishes, total);
    std::uint32_t kept = 0;
    double moved = 0.0;
    double squares = 0.0;
    for (Entry entry : entries) {
        const double price = std::max(entry.price + length * entry.flow - cut, 0.0);
        moved += (price - entry.price) * (price - entry.price);
        const bool changed = price != entry.price;
        entry.price = price;
        entry.flow *= 1.0 - rule_.flow_weight;
        if (entry.flow < kFlowKept) entry.flow = 0.0;
        squares += entry.flow * entry.flow;
        if (changed) show_cost(entry);
        std::uint32_t& listed_as = balls_[entry.ball].arcs[entry.place].entry;
        if (price > 0.0 || entry.flow > 0.0) {
            if (listed_as != kept) listed_as = kept;
            entries[kept++] = entry;
        } else {
            listed_as = kNoEntry;
        }
    }
    entries.resize(kept);
    moved_squares_[purse] = moved;
    flow_squares_[purse] = squares;
}

void PriceSearch::step(double target) {
    target_ = target;
    team_.run(balls_.size(), kBallBatch, [&](std::size_t d, std::size_t worker) { follow_path(d, worker); });
    double squares = std::accumulate(flow_squares_.begin(), flow_squares_.end(), 0.0);
    squares = std::accumulate(path_squares_.begin(), path_squares_.end(), squares);
    for (std::size_t d = 0; d < balls_.size(); ++d) {
        for (const std::uint32_t p : fresh_[d]) {
            add_entry(static_cast<std::uint32_t>(d), p, 0.0, first_pass_ ? 1.0 : rule_.flow_weight);
        }
    }
    first_pass_ = false;
    if (squares <= 0.0) return;
    const double length = factor_ * std::max(target - bound_, 0.0) / (squares * move_share_);
    team_.run(purses_.size(), kPurseBatch, [&](std::size_t purse, std::size_t) {
        moved_squares_[purse] = 0.0;
        if (!purses_[purse].empty()) project(purse, length);
    });
    if (length <= 0.0) return;
    const double moved = std::accumulate(moved_squares_.begin(), moved_squares_.end(), 0.0);
    const double share = std::clamp(moved / (length * length * squares), 1e-6, 1.0);
    move_share_ += rule_.memory * (share - move_share_);
}

std::size_t PriceSearch::roots_above(double limit) const {
    return static_cast<std::size_t>(
        std::count_if(roots_.begin(), roots_.end(), [&](std::uint32_t r) { return root_bounds_[r] > limit; }));
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

void PriceSearch::focus_on(std::uint32_t option) {
    roots_.assign(1, option);
    best_bound_ = -std::numeric_limits<double>::infinity();
    factor_ = rule_.start_factor;
    move_share_ = 1.0;
    passes_without_gain_ = 0;
    rebuild_balls();
}

void PriceSearch::rebuild_balls() {
    const PriceSet prices = present_prices();
    const PriceSet flows = present_flows();
    std::vector<double> radius(balls_.size(), 0.0);
    for (std::size_t d = 0; d < balls_.size(); ++d) {
        const DemandBall& ball = balls_[d];
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
            edge = std::max(edge, entry.flow);
    }
    return use;
}

}  // namespace spadework::graph
