#pragma once

// Which gear a building, the hub and an enclosure take, at the least price with its installation.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework {

/// So many pieces of a product and their installation.
Money price_installed(const BuildingGearProduct& product, int count, const Labour& labour);
Money price_installed(const HubGearProduct& product, int count, const Labour& labour);
Money price_installed(const EnclosureProduct& product, int count, const Labour& labour);

/// How many pieces of a product.
struct Pieces {
    int product = 0;
    int count = 0;
};

/// Power the devices of a building draw at the supplying side, watts: for each device the figure of its PoE class (IEEE
/// 802.3 clauses 33 and 145). Nothing when a device needs more than class 8 delivers.
std::optional<double> poe_demand_w(const Building& building);

/// Whether so many pieces supply a building's devices: each device takes the figure of its class at one piece, in whole
/// milliwatts, and a port there; devices are shared out from the hungriest down, each to the first piece that has both.
/// False too when a device needs more than class 8 delivers.
bool power_suffices(const BuildingGearProduct& product, int pieces, const Building& building);

/// Copper ports that so many pieces leave free when they are linked in a row, a port at each end of a link.
int free_copper_ports(const BuildingGearProduct& product, int pieces);

/// Ports the devices of a building need: one a device, and the spare ports of the rules.
int copper_ports_needed(const Building& building, const Rules& rules);

/// What a building's gear must do.
struct GearNeed {
    int optic_ports = 1;
    BitRate rate;
};

/// The cheapest gear for a building: pieces of one product, the second and further ones linked by copper (a port at
/// each end). A media converter only serves a building with one device or none. Nothing when no product will do.
std::optional<Pieces> cheapest_building_gear(const Scenario& scenario, const Building& building, const GearNeed& need);

/// Where none will: the pieces that fall short in the fewest ways and by the least, for checks to say by how much.
/// Nothing when the catalogue has no gear for buildings.
std::optional<Pieces> nearest_building_gear(const Scenario& scenario, const Building& building, const GearNeed& need);

/// Copper ports that what stands at the hub takes.
int hub_copper_ports_needed(const Hub& hub);

/// Hub switches for `optic_ports` links at `rate` and the hub's growth ports, and for the copper ports of what stands
/// there, beyond the ports already free: the set that is cheapest, one entry a product used, in catalogue order. A
/// switch too slow for the rate counts for its copper alone. Switches side by side are joined by ports that the
/// catalogue does not count. Empty when none is needed; nothing when no set will do.
std::optional<std::vector<Pieces>> cheapest_hub_gear(const Scenario& scenario, int optic_ports, BitRate rate);

/// Why no set will do, in one sentence part: "hub: 12 optic ports are needed, 4 are free, and …".
std::string why_no_hub_gear(const Scenario& scenario, int optic_ports, BitRate rate);

/// Enclosures for `adapters` strands at one place; nothing when the catalogue has none.
std::optional<std::vector<Pieces>> cheapest_enclosures(const Scenario& scenario, int adapters);

Money price_of(const Scenario& scenario, const std::vector<Pieces>& hub_gear);
Money price_of_enclosures(const Scenario& scenario, const std::vector<Pieces>& enclosures);

}  // namespace spadework
