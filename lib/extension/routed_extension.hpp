#pragma once

// How further buildings are to be served, down to the routes.

#include <optional>
#include <vector>

#include "layout/plan.hpp"
#include "layout/routed_layout.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// From where a further building gets its cable.
struct Source {
    enum class Kind { hub, built_enclosure, new_enclosure, building };
    Kind kind = Kind::hub;
    int enclosure = -1;           ///< Index into the built plan's enclosures, or into RoutedExtension::enclosures.
    BuildingIndex building = -1;  ///< Last of a chain so far: in the built plan, or an addition that hangs on one.
    int cable = -1;               ///< Of the built plan, dark from there to the addition's place, to be lit again.
    friend bool operator==(const Source&, const Source&) = default;
    friend auto operator<=>(const Source&, const Source&) = default;
};

struct RoutedAddition {
    BuildingIndex building = 0;
    Source source;
    Route route;
};

/// A building of a chain that hangs on an addition from now on, by a new cable instead of the one it has.
struct Reconnection {
    BuildingIndex building = 0;
    BuildingIndex behind = 0;  ///< The addition.
    Route route;               ///< From the addition.
};

struct RoutedExtension {
    std::vector<RoutedEnclosure> enclosures;  ///< New ones, each on a trunk of its own from the hub.
    std::vector<RoutedAddition> additions;    ///< Ascending by building.
    std::optional<Reconnection> reconnection;
};

}  // namespace spadework
