#pragma once

// Routes of several further cables together, so that what one of them opens is open to the others.

#include <optional>
#include <vector>

#include "extension/routed_extension.hpp"
#include "extension/works.hpp"
#include "layout/service_figures.hpp"
#include "routing/network.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// What every search for routes looks at.
struct ExtensionSearch {
    const Scenario& scenario;
    const Plan& built;
    const BuiltWorks& works;
    const std::vector<BuildingIndex>& additions;
    Network network;                    ///< Beside what was built.
    std::vector<CableFigures> figures;  ///< Of each addition's own cable.

    [[nodiscard]] PlaceIndex place_of(const Source& source) const {
        if (source.kind == Source::Kind::hub) return scenario.hub.place;
        if (source.kind == Source::Kind::building)
            return scenario.buildings[static_cast<std::size_t>(source.building)].place;
        return built.enclosures[static_cast<std::size_t>(source.enclosure)].place;
    }
};

/// Every addition from its given source (hub or a built enclosure), laid one after another in the given order of
/// positions, each by the cheapest way beside those before it, and each laid anew once all lie, until none gets
/// cheaper. Ducts are never filled beyond their room. Nothing where there is no way.
std::optional<RoutedExtension> routed_from(const ExtensionSearch& search, const std::vector<Source>& sources,
                                           const std::vector<std::size_t>& order);

/// The cheapest that the solver finds when every addition may come from any of the sources, and what it proves: no
/// extension with a cable of its own to every addition from one of them pays less on the way, in money.
struct FreeRoutes {
    std::optional<RoutedExtension> routed;   ///< Nothing where there is no way. A duct may be overfilled.
    std::optional<RoutedExtension> fitting;  ///< The cheapest found in which none is.
    Money bound;
};
FreeRoutes routed_from_anywhere(const ExtensionSearch& search, const std::vector<Source>& sources);

/// Some of the additions (by position) through a new enclosure.
struct ThroughNew {
    PlaceIndex place = 0;
    CableFigures trunk;  ///< Of a trunk for these additions.
    std::vector<std::size_t> additions;
};

/// These additions from the new enclosure, on a trunk from the hub; each of the others from whichever of its sources
/// (a list for each addition) then costs least on the way. Nothing where there is no way.
std::optional<RoutedExtension> routed_through(const ExtensionSearch& search, const ThroughNew& through,
                                              const std::vector<std::vector<Source>>& sources);

}  // namespace spadework
