#pragma once

// What the site's prices make every plan of a layout pay at least, worked out in the plainest way from the site alone.
// Nothing here is shared with the code that plans.

#include <cstdint>
#include <optional>
#include <vector>

#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework::certificate {

__extension__ using Wide = __int128;

/// Millimetres of the shortest way from a place to every other over segments that are not banned; nothing where there
/// is no way.
std::vector<std::optional<std::int64_t>> shortest_millimetres(const Scenario& scenario, PlaceIndex from);

/// A cable that holds so many strands, whichever products are taken, at the least.
struct LeastCable {
    int strands = 0;
    std::int64_t thousandths_a_metre = 0;  ///< Of route, in thousandths of a minor unit.
    std::int64_t pieces = 1;               ///< Cables in parallel, each of which passes every duct.
    std::int64_t ends = 0;                 ///< Rise, coils and material at both ends, minor units.
    std::int64_t end_work = 0;             ///< On the strands in use at both ends, minor units.
    std::int64_t rounding = 0;             ///< By how much its lines may fall short of all this when rounded.
};

/// Nothing where the catalogue has no cable.
std::optional<LeastCable> least_cable(const Scenario& scenario, int strands, int in_use);

/// What a route of at least so many millimetres adds to that: joints, or a product that is dearer at its ends or by the
/// metre than the least of each.
std::int64_t beyond_least(const Scenario& scenario, const LeastCable& least, std::int64_t millimetres);

/// Charges of a layout in which cables fan out from one place.
struct FanOutFigures {
    std::vector<LeastCable> cables;  ///< A building's own each, in order; then the trunk, where there is one.
    std::vector<PlaceIndex> places;  ///< Where cables may fan out, ascending.
    std::vector<Money> beside;       ///< For each of these, what every plan pays beside its routes.
    /// For each place, of that, each cable's ends without work, and what the shortest way makes it cost beyond figures.
    std::vector<std::vector<Money>> counted;
    Money half_coils = {};  ///< What cables are charged too much in a handhole where coils are charged.
};

/// Every building on a cable of its own from the hub. Nothing where no plan is possible.
std::optional<FanOutFigures> home_run_figures(const Scenario& scenario);

/// Every building on a cable of its own from one enclosure, and one trunk to it. Nothing where no plan is possible.
std::optional<FanOutFigures> one_trunk_figures(const Scenario& scenario);

}  // namespace spadework::certificate
