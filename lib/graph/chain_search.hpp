#pragma once

// Plans for a ChainProblem: ordering the stops along a tree of routes and improving the tree under that order, in
// turns.

#include <cstdint>
#include <optional>
#include <vector>

#include "graph/chain_figures.hpp"
#include "graph/chain_orders.hpp"
#include "graph/pair_routes.hpp"
#include "graph/pair_routes_reroute.hpp"

namespace spadework::graph::chains {

/// Orders of the stops with the edges their hops open.
struct Layout {
    std::vector<EdgeId> open;
    Orders orders;
    std::vector<std::vector<EdgeId>> paths;  ///< In the order of hops_of; empty while `open` is a tree.
    Cost cost = 0;                           ///< All in, with what hops too long are charged.
};

class Search {
public:
    Search(const ChainProblem& problem, const pair_routes::StopRule& stop, std::uint64_t seed);

    /// From here on hops too long are charged several times as much.
    void insist();

    /// What the layout costs at what hops too long are charged now.
    [[nodiscard]] Cost cost_now(const Layout& layout) const;

    /// The best layout from a few starts; nothing when some stop is cut off.
    std::optional<Layout> first();

    /// Starts afresh from trees joined where edges of use 1 have some share of their opening cost taken off, and less
    /// used ones the less, some of them varied at random: so many trees, keeping what is better. `use` is by edge, 0
    /// to 1.
    void follow(const std::vector<double>& use, Layout& layout, int times);

    /// Starts afresh so many times from trees joined at opening costs varied at random, keeping what is better.
    void scatter(Layout& layout, int times);

    /// Shakes the layout up so many times, keeping what is better.
    void shake(Layout& layout, int times);

    /// Takes turns of ordering and route improvement from the tree and, where given, the orders.
    [[nodiscard]] Layout descend(std::vector<EdgeId> tree, Orders orders) const;

    /// Takes turns of ordering and rerouting where routes may go round in circles. Never dearer than what is given.
    [[nodiscard]] Layout loosened(const Layout& layout);

    [[nodiscard]] const pair_routes::Network& network() const { return network_; }

private:
    [[nodiscard]] HopCosts hop_costs_on(const std::vector<EdgeId>& tree) const;
    [[nodiscard]] Cost dearest_charge() const;
    bool try_tree(const std::vector<SharedCostEdge>& other_prices, Cost cables, Layout& layout);
    [[nodiscard]] Orders orders_along(const std::vector<EdgeId>& tree) const;
    [[nodiscard]] HopCosts hop_costs_now();
    Layout route(Orders orders, const std::vector<EdgeId>& open);

    const ChainProblem& problem_;
    const pair_routes::StopRule& stop_;
    pair_routes::Network network_;
    pair_routes::RouteSet routes_;
    HopCharge charge_;
    std::mt19937_64 random_;
};

/// The layout in the terms of the problem, priced anew; nothing should it turn out not to be a plan.
std::optional<ChainPlan> plan_from(const ChainProblem& problem, const pair_routes::Network& network,
                                   const Layout& layout);

}  // namespace spadework::graph::chains
