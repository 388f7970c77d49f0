#include "graph/chain_search.hpp"

#include <algorithm>
#include <array>

#include "graph/chain_solver.hpp"
#include "graph/pair_routes_tree.hpp"

namespace spadework::graph::chains {

using pair_routes::Charge;
using pair_routes::Network;
using pair_routes::RootedTree;

namespace {

constexpr std::uint64_t kScatter = 25;  ///< Percent by which opening costs are varied to find other trees.
constexpr int kOrderShakes = 100;
constexpr int kShakesFromBest = 12;
constexpr Cost kUphill = 300;  ///< A step may be dearer by this part of the best.

/// From one tree position to every other the sum of what `of` makes of each edge between.
template <class OfEdge>
std::vector<Cost> sums_from(const RootedTree& tree, std::int32_t from, OfEdge of) {
    std::vector<Cost> sum(tree.vertex.size(), -1);
    sum[from] = 0;
    for (std::int32_t p = from; tree.parent[p] >= 0; p = tree.parent[p])
        sum[tree.parent[p]] = sum[p] + of(tree.edge[p]);
    for (std::int32_t p = 1; p < tree.count(); ++p) {
        if (sum[p] < 0) sum[p] = sum[tree.parent[p]] + of(tree.edge[p]);
    }
    return sum;
}

/// What a hop from one tree position to every other costs, charges counted.
std::vector<Cost> costs_from(const ChainProblem& problem, const RootedTree& tree, std::int32_t from,
                             const HopCharge& too_long) {
    const Charge charge = hop_charge(problem);
    std::vector<Cost> cost = sums_from(tree, from, [&](EdgeId e) { return charge.on(problem.edges[e]); });
    if (!too_long.limits()) return cost;
    const std::vector<Cost> spans = sums_from(tree, from, [&](EdgeId e) { return problem.span_of[e]; });
    for (std::size_t p = 0; p < cost.size(); ++p)
        cost[p] += too_long.of(spans[p]);
    return cost;
}

HopCosts no_hops(const ChainProblem& problem) {
    HopCosts costs;
    costs.stops = static_cast<std::int32_t>(problem.stops.size());
    costs.a_chain = problem.chain_cost - problem.end_saving;
    costs.longest_chain = problem.longest_chain;
    return costs;
}

/// Of several cheapest ways there and back the shorter is charged less: both get its charge.
void make_symmetric(HopCosts& costs) {
    const auto stops = static_cast<std::size_t>(costs.stops);
    for (std::size_t a = 0; a < stops; ++a) {
        for (std::size_t b = 0; b < a; ++b) {
            Cost& there = costs.between[a * stops + b];
            Cost& back = costs.between[b * stops + a];
            there = back = std::min(there, back);
        }
    }
}

/// All stops in the order of a walk round the tree, smaller branches first or last.
std::vector<std::int32_t> walk_round(const ChainProblem& problem, const RootedTree& tree, bool small_first) {
    std::vector<std::vector<std::int32_t>> below(tree.vertex.size());
    std::vector<std::vector<std::int32_t>> stops_at(tree.vertex.size());
    std::vector<std::int32_t> weight(tree.vertex.size(), 0);
    for (std::size_t s = 0; s < problem.stops.size(); ++s) {
        const std::int32_t p = tree.place[problem.stops[s]];
        stops_at[p].push_back(static_cast<std::int32_t>(s));
        ++weight[p];
    }
    for (std::int32_t p = tree.count() - 1; p > 0; --p) {
        weight[tree.parent[p]] += weight[p];
        below[tree.parent[p]].push_back(p);
    }
    std::vector<std::int32_t> sequence;
    std::vector<std::int32_t> waiting{0};
    while (!waiting.empty()) {
        const std::int32_t here = waiting.back();
        waiting.pop_back();
        sequence.insert(sequence.end(), stops_at[here].begin(), stops_at[here].end());
        auto& branches = below[here];  // Taken from the back: what should come first goes last.
        std::stable_sort(branches.begin(), branches.end(), [&](std::int32_t a, std::int32_t b) {
            return small_first ? weight[a] > weight[b] : weight[a] < weight[b];
        });
        waiting.insert(waiting.end(), branches.begin(), branches.end());
    }
    return sequence;
}

std::vector<VertexId> vertices_to_join(const ChainProblem& problem) {
    std::vector<VertexId> vertices{problem.source};
    vertices.insert(vertices.end(), problem.stops.begin(), problem.stops.end());
    return vertices;
}

}  // namespace

Search::Search(const ChainProblem& problem, const pair_routes::StopRule& stop, std::uint64_t seed)
    : problem_(problem), stop_(stop), network_(problem.vertex_count, problem.edges), routes_(network_), random_(seed) {
    if (problem.span_of.empty()) return;
    charge_ = HopCharge(problem.longest_hop, dearest_charge(), static_cast<Cost>(problem.stops.size()));
    routes_.limit(problem.span_of, charge_);
}

/// More than it costs to begin a new chain for all that lies behind a hop too long.
Cost Search::dearest_charge() const {
    constexpr Cost kFarthestWays = 4;
    pair_routes::RouteSet routes(network_);
    const std::vector<Cost> from_source = routes.costs_from(problem_.source, hop_charge(problem_));
    Cost farthest = 0;
    for (const VertexId stop : problem_.stops)
        farthest = std::max(farthest, from_source[stop]);
    return add(problem_.chain_cost, times(farthest, kFarthestWays));
}

void Search::insist() {
    charge_.raise();
    routes_.limit(problem_.span_of, charge_);
}

HopCosts Search::hop_costs_on(const std::vector<EdgeId>& tree) const {
    HopCosts costs = no_hops(problem_);
    const RootedTree laid = rooted(network_, tree, problem_.source);
    const auto from_source = costs_from(problem_, laid, 0, charge_);
    for (const VertexId stop : problem_.stops) {
        costs.from_source.push_back(from_source[laid.place[stop]]);
        const auto from_stop = costs_from(problem_, laid, laid.place[stop], charge_);
        for (const VertexId other : problem_.stops)
            costs.between.push_back(from_stop[laid.place[other]]);
    }
    return costs;
}

Cost Search::cost_now(const Layout& layout) const {
    Cost cost = 0;
    for (const EdgeId e : layout.open)
        cost += network_.edges[e].opening;
    if (layout.paths.empty()) return cost + cost_of_orders(hop_costs_on(layout.open), layout.orders);
    cost += static_cast<Cost>(layout.orders.size()) * (problem_.chain_cost - problem_.end_saving);
    for (const auto& path : layout.paths) {
        Length span = 0;
        for (const EdgeId e : path) {
            cost += hop_charge(problem_).on(network_.edges[e]);
            if (charge_.limits()) span += problem_.span_of[e];
        }
        cost += charge_.of(span);
    }
    return cost;
}

Orders Search::orders_along(const std::vector<EdgeId>& tree) const {
    const RootedTree laid = rooted(network_, tree, problem_.source);
    const HopCosts costs = hop_costs_on(tree);
    Orders best;
    for (const bool small_first : {true, false}) {
        Orders orders = best_cut(costs, walk_round(problem_, laid, small_first));
        if (!stop_.reached()) improve_orders(costs, orders);
        if (best.empty() || cost_of_orders(costs, orders) < cost_of_orders(costs, best)) best = std::move(orders);
    }
    return best;
}

Layout Search::descend(std::vector<EdgeId> tree, Orders orders) const {
    if (orders.empty()) orders = orders_along(tree);
    Layout best;
    for (bool first = true;; first = false) {
        tree = improved_tree(network_, hops_of(problem_, orders), std::move(tree), stop_);
        const HopCosts costs = hop_costs_on(tree);
        if (!stop_.reached()) improve_orders(costs, orders);
        if (!stop_.reached()) settle_orders(costs, orders, kOrderShakes);
        Cost cost = cost_of_orders(costs, orders);
        for (const EdgeId e : tree)
            cost += network_.edges[e].opening;
        if (!first && cost >= best.cost) return best;
        best = {tree, orders, {}, cost};
        if (stop_.reached()) return best;
    }
}

std::optional<Layout> Search::first() {
    const std::vector<VertexId> wanted = vertices_to_join(problem_);
    std::optional<Layout> best;
    for (const Cost times : {1, 2, 4, 0}) {
        auto tree = joining_tree(network_, wanted, {problem_.weight * times, problem_.multiplicity * times});
        if (!tree) return std::nullopt;
        Layout layout = descend(std::move(*tree), {});
        if (!best || layout.cost < best->cost) best = std::move(layout);
        if (stop_.reached()) break;
    }
    return best;
}

HopCosts Search::hop_costs_now() {
    HopCosts costs = no_hops(problem_);
    const auto from_source = routes_.costs_from(problem_.source, hop_charge(problem_));
    for (const VertexId stop : problem_.stops) {
        costs.from_source.push_back(from_source[stop]);
        const auto from_stop = routes_.costs_from(stop, hop_charge(problem_));
        for (const VertexId other : problem_.stops)
            costs.between.push_back(from_stop[other]);
    }
    if (charge_.limits()) make_symmetric(costs);
    return costs;
}

Layout Search::route(Orders orders, const std::vector<EdgeId>& open) {
    routes_.lay(hops_of(problem_, orders), open);
    routes_.improve(stop_);
    const auto chains = static_cast<Cost>(orders.size());
    return {routes_.open_edges(), std::move(orders), routes_.paths(),
            routes_.cost() + chains * (problem_.chain_cost - problem_.end_saving)};
}

Layout Search::loosened(const Layout& layout) {
    Layout best = layout;
    Layout next = route(layout.orders, layout.open);
    while (next.cost < best.cost) {
        best = next;
        if (stop_.reached()) break;
        Orders orders = best.orders;
        improve_orders(hop_costs_now(), orders);
        next = route(std::move(orders), best.open);
    }
    return best;
}

/// A tree joined at other prices, ordered and improved at the true ones. False when some stop is cut off.
bool Search::try_tree(const std::vector<SharedCostEdge>& other_prices, Cost cables, Layout& layout) {
    const pair_routes::Network network(problem_.vertex_count, other_prices);
    auto tree =
        joining_tree(network, vertices_to_join(problem_), {problem_.weight * cables, problem_.multiplicity * cables});
    if (!tree) return false;
    Layout other = descend(std::move(*tree), {});
    if (other.cost < layout.cost + layout.cost / kUphill) other = loosened(other);
    if (other.cost < layout.cost) layout = std::move(other);
    return true;
}

void Search::follow(const std::vector<double>& use, Layout& layout, int times) {
    static constexpr std::array kDiscounts{0.9, 0.6, 0.97, 0.8};
    for (std::size_t i = 0; i < static_cast<std::size_t>(times) && !stop_.reached(); ++i) {
        std::vector<SharedCostEdge> cheaper = problem_.edges;
        for (std::size_t e = 0; e < cheaper.size(); ++e) {
            double kept = 1.0 - kDiscounts[i % kDiscounts.size()] * std::clamp(use[e], 0.0, 1.0);
            if (i >= 2) kept *= 1.0 + static_cast<double>(random_() % 601) / 1000.0 - 0.3;
            cheaper[e].opening = static_cast<Cost>(kept * static_cast<double>(cheaper[e].opening));
        }
        if (!try_tree(cheaper, 1, layout)) return;
    }
}

void Search::scatter(Layout& layout, int times) {
    for (int i = 0; i < times && !stop_.reached(); ++i) {
        std::vector<SharedCostEdge> varied = problem_.edges;
        for (SharedCostEdge& edge : varied) {
            const auto hundredths = static_cast<Cost>(100 - kScatter + random_() % (2 * kScatter + 1));
            edge.opening = edge.opening / 100 * hundredths;
        }
        if (!try_tree(varied, i % 2 + 1, layout)) return;
    }
}

void Search::shake(Layout& layout, int times) {
    Layout current = layout;
    for (int i = 0; i < times && !stop_.reached(); ++i) {
        // A walk that may go a little uphill, and goes back to the best now and then.
        if (i % kShakesFromBest == 0) current = layout;
        route(current.orders, current.open);
        const HopCosts costs = hop_costs_now();
        Orders orders = current.orders;
        shake_orders(costs, orders, random_);
        improve_orders(costs, orders);
        Layout other = loosened(route(std::move(orders), current.open));
        if (other.cost < layout.cost) layout = other;
        if (other.cost < current.cost + layout.cost / kUphill) current = std::move(other);
    }
}

std::optional<ChainPlan> plan_from(const ChainProblem& problem, const Network& network, const Layout& layout) {
    const RootedTree tree = rooted(network, layout.open, problem.source);
    ChainPlan plan;
    std::size_t hop = 0;
    for (const auto& order : layout.orders) {
        VertexId from = problem.source;
        auto& chain = plan.chains.emplace_back();
        for (const std::int32_t stop : order) {
            ++hop;  // Pair 0 is the source's own.
            chain.push_back(
                {stop, layout.paths.empty() ? path_between(tree, from, problem.stops[stop]) : layout.paths[hop]});
            from = problem.stops[stop];
        }
    }
    const auto value = cost_of(problem, plan);
    if (!value) return std::nullopt;
    plan.value = *value;
    return plan;
}

}  // namespace spadework::graph::chains
