#pragma once

// What was built: what of it a further building may use, and what its use costs.
//
// A trench that was dug is closed, and each cable in it has a duct of its own: another cable means opening the ground
// again at the full price. An existing duct of the map takes cables while it has room, and poles take any number; where
// the plan uses them already nothing more is paid to open them. Strands, adapters and ports that carry nothing are free
// to take.

#include <map>
#include <vector>

#include "layout/plan.hpp"
#include "routing/network.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

struct BuiltWorks {
    std::map<Step, int> cables;      ///< How many lie in each way in use.
    std::vector<int> dark_strands;   ///< For each cable of the plan: strands that carry no link.
    std::vector<int> free_adapters;  ///< For each enclosure: beyond the strands that its trunks have plugged there.
    int free_hub_ports = 0;          ///< Optic ports, of switches fast enough for every new link.
};

/// `rate` is the fastest that a new link wants: ports of slower switches are not counted.
BuiltWorks works_of(const Scenario& scenario, const Plan& built, BitRate rate);

/// The map's network for further cables: full ducts left out, the room of others lowered, and nothing asked for opening
/// ducts and pole lines that are in use.
Network network_beside(const Scenario& scenario, const BuiltWorks& works);

/// Whether nothing is paid for another cable to enter this way: an existing duct or a pole line that is in use.
bool is_open(const Scenario& scenario, const BuiltWorks& works, const Step& step);

}  // namespace spadework
