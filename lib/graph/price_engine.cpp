#include "graph/price_engine.hpp"

#include <algorithm>
#include <numeric>

#include "graph/simplex_projection.hpp"

namespace spadework::graph {
namespace {

constexpr double kFlowKept = 1e-4;  ///< Smaller averaged flows are dropped.
constexpr std::size_t kBallBatch = 4;
constexpr std::size_t kPurseBatch = 512;
constexpr double kNoLimit = std::numeric_limits<double>::infinity();

}  // namespace

template <class Real>
PriceEngine<Real>::PriceEngine(const SearchNetwork& network, WorkerTeam& team, const StepRule& rule)
    : network_(network),
      team_(team),
      rule_(rule),
      roots_(network.root_at.size()),
      balls_(network.demand_at.size()),
      held_(network.demand_at.size()),
      paths_(network.demand_at.size()),
      purses_(purse_count(network)),
      fresh_(network.demand_at.size()),
      path_squares_(network.demand_at.size(), 0.0),
      flow_squares_(purses_.size(), 0.0),
      moved_squares_(purses_.size(), 0.0),
      root_bounds_(network.root_at.size(), 0.0),
      factor_(rule.start_factor) {
    std::iota(roots_.begin(), roots_.end(), 0U);
    set_potentials();
}

/// Lays the arcs out anew; what demands hold moves along.
template <class Real>
void PriceEngine<Real>::set_potentials() {
    std::vector<VertexId> from;
    for (const std::uint32_t r : roots_)
        from.push_back(network_.root_at[r]);
    to_root_ = shortest_reach(network_, from);
    searches_.clear();
    const std::unique_ptr<InwardArcs> before = std::move(arcs_);
    arcs_ = std::make_unique<InwardArcs>(network_, to_root_);
    for (HeldPrices<Real>& held : held_) {
        for (HeldPrice<Real>& one : held) {
            if (one.place != kNoArc) one.place = arcs_->place_of[before->arc[one.place]];
        }
    }
    for (std::size_t w = 0; w < team_.size(); ++w)
        searches_.emplace_back(*arcs_, network_.vertex_count, !network_.one_measure);
}

template <class Real>
void PriceEngine<Real>::start(std::vector<AscentPrices> ascent) {
    std::vector<double> radius;
    for (std::size_t d = 0; d < ascent.size(); ++d) {
        for (const ArcPrice& p : ascent[d].prices) {
            Purse& purse = purses_[purse_of(network_, p.arc)];
            if (!purse.empty() && purse.back().demand == d) continue;
            const auto price = static_cast<Real>(p.price);
            purse.push_back({static_cast<std::uint32_t>(d), static_cast<std::uint32_t>(held_[d].size()), price, 0});
            held_[d].push_back({arcs_->place_of[p.arc], price});
        }
        radius.push_back(roots_.size() > 1 ? kNoLimit : ascent[d].paid);
        ascent[d].prices = {};
    }
    build_balls(radius);
}

/// Builds all balls; what a demand holds outside its new ball leaves the purses.
template <class Real>
void PriceEngine<Real>::build_balls(const std::vector<double>& radius) {
    std::vector<BallBuilder<Real>> builders;
    for (std::size_t w = 0; w < team_.size(); ++w)
        builders.emplace_back(network_, *arcs_);
    team_.run(balls_.size(), kBallBatch, [&](std::size_t d, std::size_t worker) {
        const BallExtent extent{radius[d] * (1.0 + 1e-9), rule_.price_share};
        balls_[d] = {};
        paths_[d].path.clear();
        balls_[d] = builders[worker].build(d, to_root_, roots_, held_[d], extent);
    });
    team_.run(purses_.size(), kPurseBatch, [&](std::size_t purse, std::size_t) {
        std::erase_if(purses_[purse], [&](const Entry& e) { return held_[e.demand][e.slot].place == kNoArc; });
        flow_squares_[purse] = 0.0;
        for (const Entry& entry : purses_[purse])
            flow_squares_[purse] += static_cast<double>(entry.flow) * static_cast<double>(entry.flow);
    });
}

template <class Real>
void PriceEngine<Real>::search_all() {
    const bool one_option = roots_.size() == 1;
    team_.run(balls_.size(), kBallBatch, [&](std::size_t d, std::size_t worker) {
        searches_[worker].run(balls_[d], network_.rate[d], held_[d], one_option, paths_[d]);
    });
    for (const std::uint32_t r : roots_)
        root_bounds_[r] = network_.root_cost[r];
    double outside_sum = 0.0;
    for (std::size_t d = 0; d < balls_.size(); ++d) {
        // Every root gets the outside's distance, roots in the ball the difference.
        const DemandBall& ball = balls_[d];
        const double base = ball.all_roots ? 0.0 : paths_[d].outside_distance;
        outside_sum += ball.offset + base;
        for (std::size_t r = 0; r < ball.roots.size(); ++r)
            root_bounds_[ball.roots[r].option] += paths_[d].root_distance[r] - base;
    }
    bound_ = kNoLimit;
    for (const std::uint32_t r : roots_) {
        root_bounds_[r] += outside_sum;
        if (root_bounds_[r] >= bound_) continue;
        bound_ = root_bounds_[r];
        best_root_ = r;
    }
    judge_bound();
}

template <class Real>
void PriceEngine<Real>::judge_bound() {
    if (bound_ > best_bound_) {
        best_bound_ = bound_;
        copy_present_prices(best_prices_);
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

template <class Real>
void PriceEngine<Real>::copy_present_prices(PursePrices& prices) const {
    prices.first.assign(1, 0);
    prices.demand.clear();
    prices.price.clear();
    for (const Purse& purse : purses_) {
        for (const Entry& entry : purse) {
            if (entry.price <= 0) continue;
            prices.demand.push_back(entry.demand);
            prices.price.push_back(static_cast<double>(entry.price));
        }
        prices.first.push_back(prices.demand.size());
    }
}

/// Where the cheapest path from the best root starts: the root's number in the ball, or the outside.
template <class Real>
std::uint32_t PriceEngine<Real>::cheapest_start(std::size_t d) const {
    const std::vector<BallRoot>& roots = balls_[d].roots;
    for (std::size_t r = 0; r < roots.size(); ++r) {
        if (roots[r].option == best_root_ && paths_[d].root_distance[r] < paths_[d].outside_distance)
            return roots[r].vertex;
    }
    return balls_[d].outside();
}

template <class Real>
typename PriceEngine<Real>::Entry* PriceEngine<Real>::entry_of(std::size_t d, std::size_t purse) {
    Purse& entries = purses_[purse];
    const auto entry = std::lower_bound(entries.begin(), entries.end(), d,
                                        [](const Entry& e, std::size_t demand) { return e.demand < demand; });
    return entry != entries.end() && entry->demand == d ? &*entry : nullptr;
}

template <class Real>
void PriceEngine<Real>::follow_path(std::size_t d) {
    BallPaths& paths = paths_[d];
    const double weight = first_pass_ ? 1.0 : rule_.flow_weight;
    if (roots_.size() > 1) trace(paths.next_place, paths.next_vertex, cheapest_start(d), paths.path);
    fresh_[d].clear();
    double squares = 0.0;
    for (const std::uint32_t place : paths.path) {
        const ArcId arc = arcs_->arc[place];
        if (network_.opening[edge_of(arc)] <= 0.0) continue;
        Entry* const entry = entry_of(d, purse_of(network_, arc));
        if (entry == nullptr) {
            fresh_[d].push_back(place);
            squares += weight * weight;
            continue;
        }
        const auto flow = static_cast<double>(entry->flow);
        squares += (flow + weight) * (flow + weight) - flow * flow;
        entry->flow = static_cast<Real>(flow + weight);
    }
    path_squares_[d] = squares;
}

template <class Real>
void PriceEngine<Real>::enter_fresh_arcs() {
    const auto weight = static_cast<Real>(first_pass_ ? 1.0 : rule_.flow_weight);
    for (std::size_t d = 0; d < balls_.size(); ++d) {
        HeldPrices<Real>& held = held_[d];
        std::size_t slot = 0;
        for (const std::uint32_t place : fresh_[d]) {
            while (slot < held.size() && held[slot].place != kNoArc)
                ++slot;
            if (slot == held.size()) held.emplace_back();
            held[slot] = {place, 0};
            Purse& purse = purses_[purse_of(network_, arcs_->arc[place])];
            const auto behind = std::lower_bound(purse.begin(), purse.end(), d,
                                                 [](const Entry& e, std::size_t demand) { return e.demand < demand; });
            purse.insert(behind, {static_cast<std::uint32_t>(d), static_cast<std::uint32_t>(slot), 0, weight});
        }
    }
}

template <class Real>
void PriceEngine<Real>::project(std::size_t purse, double length) {
    Purse& entries = purses_[purse];
    thread_local std::vector<double> wishes;
    wishes.clear();
    for (const Entry& entry : entries)
        wishes.push_back(static_cast<double>(entry.price) + length * static_cast<double>(entry.flow));
    const double cut = cut_to_fit(wishes, network_.opening[edge_of_purse(network_, purse)]);
    std::size_t kept = 0;
    double moved = 0.0;
    double squares = 0.0;
    for (Entry entry : entries) {
        const double wish = static_cast<double>(entry.price) + length * static_cast<double>(entry.flow);
        const auto price = static_cast<Real>(std::max(wish - cut, 0.0));
        const double change = static_cast<double>(price) - static_cast<double>(entry.price);
        moved += change * change;
        entry.price = price;
        entry.flow *= static_cast<Real>(1.0 - rule_.flow_weight);
        if (entry.flow < static_cast<Real>(kFlowKept)) entry.flow = 0;
        squares += static_cast<double>(entry.flow) * static_cast<double>(entry.flow);
        const bool stays = price > 0 || entry.flow > 0;
        HeldPrice<Real>& held = held_[entry.demand][entry.slot];
        held = {stays ? held.place : kNoArc, price};
        if (stays) entries[kept++] = entry;
    }
    entries.resize(kept);
    moved_squares_[purse] = moved;
    flow_squares_[purse] = squares;
}

template <class Real>
void PriceEngine<Real>::step(double target) {
    target_ = target;
    factor_ *= 1.0 - rule_.cooling;
    team_.run(balls_.size(), kBallBatch, [&](std::size_t d, std::size_t) { follow_path(d); });
    double squares = std::accumulate(flow_squares_.begin(), flow_squares_.end(), 0.0);
    squares = std::accumulate(path_squares_.begin(), path_squares_.end(), squares);
    enter_fresh_arcs();
    first_pass_ = false;
    if (squares <= 0.0) return;
    const double gap =
        std::min(target - (rule_.aim_from_best ? best_bound_ : bound_), rule_.farthest_aim * (target - best_bound_));
    const double length = factor_ * std::max(gap, 0.0) / (squares * move_share_);
    team_.run(purses_.size(), kPurseBatch, [&](std::size_t purse, std::size_t) {
        moved_squares_[purse] = 0.0;
        if (!purses_[purse].empty()) project(purse, length);
    });
    if (length <= 0.0) return;
    const double moved = std::accumulate(moved_squares_.begin(), moved_squares_.end(), 0.0);
    const double share = std::clamp(moved / (length * length * squares), 1e-6, 1.0);
    move_share_ += rule_.memory * (share - move_share_);
}

template <class Real>
std::size_t PriceEngine<Real>::roots_above(double limit) const {
    return static_cast<std::size_t>(
        std::count_if(roots_.begin(), roots_.end(), [&](std::uint32_t r) { return root_bounds_[r] > limit; }));
}

template <class Real>
void PriceEngine<Real>::drop_roots_above(double limit) {
    std::vector<std::uint32_t> left;
    for (const std::uint32_t r : roots_) {
        if (root_bounds_[r] <= limit) left.push_back(r);
    }
    if (left.empty() || left.size() == roots_.size()) return;
    copy_present_prices(dropping_prices_.emplace_back());
    roots_ = std::move(left);
    best_bound_ = -kNoLimit;
    rebuild_balls();
}

template <class Real>
void PriceEngine<Real>::focus_on(std::uint32_t option) {
    roots_.assign(1, option);
    best_bound_ = -kNoLimit;
    factor_ = rule_.refocus_factor;
    move_share_ = 1.0;
    passes_without_gain_ = 0;
    rebuild_balls();
}

template <class Real>
void PriceEngine<Real>::rebuild_balls() {
    std::vector<double> radius(balls_.size(), kNoLimit);
    for (std::size_t d = 0; d < balls_.size() && roots_.size() == 1; ++d) {
        const std::vector<double>& to_roots = paths_[d].root_distance;
        radius[d] = paths_[d].outside_distance;
        if (balls_[d].all_roots) radius[d] = *std::max_element(to_roots.begin(), to_roots.end());
    }
    set_potentials();
    build_balls(radius);
}

template <class Real>
void PriceEngine<Real>::finish() {
    balls_ = {};
    paths_ = {};
    purses_ = {};
    fresh_ = {};
    held_ = {};
    searches_.clear();
}

template <class Real>
std::vector<double> PriceEngine<Real>::edge_use() const {
    std::vector<double> use(network_.edge_count(), 0.0);
    for (std::size_t purse = 0; purse < purses_.size(); ++purse) {
        double& edge = use[edge_of_purse(network_, purse)];
        for (const Entry& entry : purses_[purse])
            edge = std::max(edge, static_cast<double>(entry.flow));
    }
    return use;
}

template class PriceEngine<float>;
template class PriceEngine<double>;

}  // namespace spadework::graph
