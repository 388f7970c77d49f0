#pragma once

// Plans for a ChainProblem: ordering the stops along a tree of routes and improving the tree under that order, in
// turns.

#include <cstdint>
#include <optional>
#include <vector>

#include "graph/chain_figures.hpp"
#include "graph/chain_orders.hpp"
#include "graph/pair_routes.hpp"

namespace spadework::graph::chains {

/// A tree of routes with the stops' orders along it.
struct Layout {
    std::vector<EdgeId> tree;
    Orders orders;
    Cost cost = 0;  ///< All in.
};

/// Hop costs when every hop follows the tree, which must reach the source and all stops.
HopCosts hop_costs_on(const ChainProblem& problem, const pair_routes::Network& network,
                      const std::vector<EdgeId>& tree);

class Search {
public:
    Search(const ChainProblem& problem, const pair_routes::StopRule& stop, std::uint64_t seed);

    /// The best layout from a few starts; nothing when some stop is cut off.
    std::optional<Layout> first();

    /// Shakes the layout up so many times, keeping what is better.
    void shake(Layout& layout, int times);

    /// Takes turns of ordering and route improvement from the tree and, where given, the orders.
    [[nodiscard]] Layout descend(std::vector<EdgeId> tree, Orders orders) const;

    [[nodiscard]] const pair_routes::Network& network() const { return network_; }

private:
    [[nodiscard]] Orders orders_along(const std::vector<EdgeId>& tree) const;

    const ChainProblem& problem_;
    const pair_routes::StopRule& stop_;
    pair_routes::Network network_;
    std::mt19937_64 random_;
};

/// The layout in the terms of the problem, priced anew; nothing should it turn out not to be a plan.
std::optional<ChainPlan> plan_from(const ChainProblem& problem, const pair_routes::Network& network,
                                   const Layout& layout);

}  // namespace spadework::graph::chains
