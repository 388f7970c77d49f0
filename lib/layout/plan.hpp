#pragma once

// What is to be built: a plain value, complete enough to price, check, draw and order from. Everything in it refers to
// the scenario by index. No prices: costing adds those.

#include <optional>
#include <string>
#include <vector>

#include "rates/cable_rates.hpp"
#include "rates/gear_rates.hpp"
#include "scenario/scenario.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

enum class LayoutKind { home_runs, trunk_one, trunk, mixed, daisy_chain, ring };

/// "home-runs", "trunk-one", "trunk", "mixed", "daisy-chain", "ring".
const char* id_of(LayoutKind kind);
/// "Home runs", "Trunk, one enclosure", …
const char* name_of(LayoutKind kind);

/// A segment passed in one of its ways (index into ways_of(scenario, segment)).
struct Step {
    SegmentIndex segment = 0;
    int way = 0;
    friend bool operator==(const Step&, const Step&) = default;
    friend auto operator<=>(const Step&, const Step&) = default;
};

/// A closing cable leads from the hub to the last building of a ring.
enum class CableRole { home_run, trunk, drop, hop, closing };

struct PlannedCable {
    std::string id;  ///< Unique in the plan: "trunk-1", "drop-kiosk", "run-kiosk", "hop-kiosk", "closing-kiosk".
    CableRole role = CableRole::home_run;
    PlaceIndex from = 0;  ///< Nearer the hub.
    PlaceIndex to = 0;
    std::vector<Step> steps;  ///< From `from` to `to`, joined end to end.
    int product = 0;          ///< Index into catalogue.cables.
    StrandNeed need;          ///< Its share of the strands; need.total() <= the product's strands.
    CableLengths lengths;
    std::optional<BuildingIndex> building;  ///< Whom a home run, drop, hop or closing serves.
    std::optional<int> enclosure;           ///< Index into the plan's enclosures: where a trunk ends or a drop begins.
    /// Of a trunk that was cut on its way: index of the part nearer the hub, an earlier cable, which ends where this
    /// one begins. Strands of one number are spliced together there, save those that end on adapters at the cut.
    std::optional<int> spliced_to;
};

struct PlannedEnclosure {
    PlaceIndex place = 0;
    std::vector<Pieces> products;       ///< Of catalogue.enclosures.
    StrandNeed need;                    ///< Strands that end here: see strands_ending().
    std::vector<int> trunks;            ///< Indices into the plan's cables.
    std::vector<BuildingIndex> serves;  ///< Ascending.
};

/// One optical link, from gear to gear without anything powered between.
struct PlannedLink {
    BuildingIndex building = 0;         ///< Where it ends.
    std::optional<BuildingIndex> from;  ///< Building where it begins in a chain; the hub when empty.
    int number = 1;  ///< From 1 for each building; those that close a ring after those that come along it.
    BitRate rate;
    int optic = 0;  ///< Index into catalogue.optics.
    /// Attenuators in front of the receivers where the link begins and where it ends: indices into
    /// catalogue.attenuators. Where one strand carries both directions, one at its end weakens both.
    std::optional<int> attenuator_at_start;
    std::optional<int> attenuator_at_end;
    int strands = 2;
    std::vector<int> cables;  ///< Indices into the plan's cables, in order from the hub.
    Length glass;             ///< Length of fibre, see glass_of().
    int mated_pairs = 2;
    int splices = 0;
};

struct PlannedGear {
    BuildingIndex building = 0;
    Pieces pieces;  ///< Of catalogue.building_gear.
};

struct Plan {
    LayoutKind layout = LayoutKind::home_runs;
    StrandUse strand_use = StrandUse::duplex;        ///< Of every link.
    std::vector<Step> trenches;                      ///< Segments opened and how, each once, ascending.
    std::vector<PlannedCable> cables;                ///< Trunks first, then by id.
    std::vector<PlannedEnclosure> enclosures;        ///< Ascending by place.
    std::vector<PlannedLink> links;                  ///< By building and number.
    std::vector<PlannedGear> building_gear;          ///< Ascending by building.
    std::vector<Pieces> hub_gear;                    ///< Of catalogue.hub_gear.
    int hub_ports = 0;                               ///< Optic ports in use at the hub.
    std::vector<std::vector<BuildingIndex>> chains;  ///< Daisy chain and ring: buildings from the hub outwards.
};

}  // namespace spadework

// Lists that many sources copy: compiled once, in plan.cpp.
extern template class std::vector<spadework::PlannedCable>;
extern template class std::vector<spadework::PlannedEnclosure>;
extern template class std::vector<spadework::PlannedLink>;
