#pragma once

// From routes of further buildings to a whole plan that has everything built and everything new.

#include <optional>
#include <string>
#include <vector>

#include "extension/routed_extension.hpp"
#include "extension/trunk_cut.hpp"
#include "extension/works.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Strands of a built cable that begin to carry light: they are plugged or spliced at both ends.
struct LitStrands {
    int cable = 0;  ///< Index into the plan's cables.
    int strands = 0;
    int again = 0;  ///< Of these, carried light before, and have all their ends.
};

/// Boxes added at an enclosure that stands already, for more adapters.
struct AddedBoxes {
    int enclosure = 0;  ///< Index into the plan's enclosures.
    std::vector<Pieces> pieces;
};

/// The plan with the extension in it, and which of it is new. Everything else is as it was built: names, routes,
/// products, strands, gear.
struct ExtendedPlan {
    Plan plan;
    std::vector<Step> opened;     ///< Ways opened for it, each once, ascending: some of them a second time.
    std::vector<int> cables;      ///< Indices into the plan's cables, as all of these.
    std::vector<int> enclosures;  ///< Into its enclosures.
    std::vector<int> links;       ///< Into its links.
    std::vector<int> gear;        ///< Into its building gear.
    std::vector<Pieces> hub_gear;
    std::vector<LitStrands> lit;
    std::vector<AddedBoxes> boxes;
    /// Of a trunk that is cut for it: the part before the cut. Its enclosure is among the new ones.
    std::optional<int> cut;
    std::vector<int> interrupted;  ///< Links that are taken apart and made again, into the plan's links.
    std::vector<int> swapped;      ///< Built building gear with other pieces now, into the plan's building gear.
};

/// Switches that the hub needs for so many links more; nothing where the catalogue has none that will do.
struct HubChoice {
    std::optional<std::vector<Pieces>> gear;
    std::string why_not;
};

/// What there is to build on, and what for.
struct ExtensionTask {
    const Scenario& scenario;
    const Plan& built;  ///< With the cut in it, where one is made.
    const BuiltWorks& works;
    const std::vector<BuildingIndex>& additions;
    std::vector<HubChoice> hub;    ///< For no further link from the hub, for one, for two, ….
    const MadeCut* cut = nullptr;  ///< A trunk that is cut for the extension.
    bool may_swap_gear = false;    ///< Gear of a built building that lacks optic ports may be replaced.
};

/// A plan, or why the routes cannot be made into one.
struct ExtensionAssembly {
    std::optional<ExtendedPlan> extended;
    std::string reason;
};

/// Chooses the cheapest products for the new routes. Links through a built enclosure take dark strands of its trunks,
/// headroom first and then spares as far as the policy counts them; a link's strands are never split between two
/// cables. An addition that hangs on a building takes free optic ports of its gear.
ExtensionAssembly assemble(const ExtensionTask& task, const RoutedExtension& routed);

}  // namespace spadework
