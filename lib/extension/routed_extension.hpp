#pragma once

// How further buildings are to be served, down to the routes.

#include <vector>

#include "layout/plan.hpp"
#include "layout/routed_layout.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// From where a further building gets its cable.
struct Source {
    enum class Kind { hub, built_enclosure, new_enclosure };
    Kind kind = Kind::hub;
    int enclosure = -1;  ///< Index into the built plan's enclosures, or into RoutedExtension::enclosures.
    friend bool operator==(const Source&, const Source&) = default;
    friend auto operator<=>(const Source&, const Source&) = default;
};

struct RoutedAddition {
    BuildingIndex building = 0;
    Source source;
    Route route;
};

struct RoutedExtension {
    std::vector<RoutedEnclosure> enclosures;  ///< New ones, each on a trunk of its own from the hub.
    std::vector<RoutedAddition> additions;    ///< Ascending by building.
};

}  // namespace spadework
