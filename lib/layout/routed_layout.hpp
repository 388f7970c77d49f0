#pragma once

// A layout decided down to its routes, before any product is chosen. What the solvers find, put into the site's terms.

#include <vector>

#include "layout/plan.hpp"
#include "routing/network.hpp"

namespace spadework {

/// A way through the network from one place to another.
struct Route {
    PlaceIndex from = 0;
    PlaceIndex to = 0;
    std::vector<Step> steps;
};

/// An enclosure, the trunk's route to it, and whom it serves.
struct RoutedEnclosure {
    PlaceIndex place = 0;
    Route trunk;
};

/// A building's own cable: from the hub (served_by -1), from an enclosure, or from the building before it in a chain.
struct RoutedBuilding {
    BuildingIndex building = 0;
    int served_by = -1;  ///< Index into enclosures, or -1.
    Route route;
};

struct RoutedLayout {
    LayoutKind kind = LayoutKind::home_runs;
    std::vector<RoutedEnclosure> enclosures;
    std::vector<RoutedBuilding> buildings;           ///< Ascending by building.
    std::vector<std::vector<BuildingIndex>> chains;  ///< Daisy chain and ring only.
    std::vector<Route> closings;                     ///< Ring only: for each chain from the hub to its last building.
};

/// The steps along a path of network edges.
Route route_along(const Network& network, const std::vector<graph::EdgeId>& path, PlaceIndex from, PlaceIndex to);

}  // namespace spadework
