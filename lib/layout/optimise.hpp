#pragma once

// The run every layout shares: route it, make a plan of the routes, and keep to the limits that no router knows of.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "graph/shared_cost_solver.hpp"
#include "layout/design.hpp"
#include "layout/routed_layout.hpp"
#include "routing/network.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// What a solver makes of one layout on one network.
struct Routing {
    std::optional<RoutedLayout> routed;  ///< Nothing when there is no way at all.
    graph::Cost bound = 0;               ///< On everything that depends on the routes.
    bool interrupted = false;
    SolverProof proof;                      ///< Of the bound.
    std::vector<RoutedLayout> others = {};  ///< Nearly as cheap by the router's prices.
};

/// One layout as a task: how to route it, and what to fall back on where links come out too long.
struct LayoutTask {
    LayoutKind kind = LayoutKind::home_runs;
    const Network* network = nullptr;
    Money constant;  ///< Least cost beside the routes.
    std::function<Routing(const Network&, const graph::SolveLimits&)> route;
    /// How `network` itself is routed, where that is not as networks with ways withheld or priced are. May be empty.
    std::function<Routing(const graph::SolveLimits&)> first_route;
    std::function<std::vector<RoutedLayout>(const RoutedLayout&)> fallbacks;  ///< In the order to try.
    /// The same layout routed for other prices, which prove nothing: more plans to choose from. May be empty.
    std::function<std::vector<RoutedLayout>(const graph::SolveLimits&)> other_routes;
    std::string why_no_route;
    bool quick = false;  ///< One of many variants: do not search prices for full ducts.
};

/// Routes the layout and makes the cheapest plan of the routes as they are, of routes found again with full ducts
/// withheld or priced, and, where a link is too long for any optic, of each fallback in turn. The bound is the best
/// proven one.
Design optimise(const Scenario& scenario, const LayoutTask& task, const DesignLimits& limits);

}  // namespace spadework
