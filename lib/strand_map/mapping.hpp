#pragma once

// The three steps of a strand map. Each completes the map that the one before it began.

#include "strand_map/earlier_map.hpp"
#include "strand_map/strand_map.hpp"

namespace spadework {

/// What all three steps look at.
struct MapTask {
    const Scenario& scenario;
    const Plan& plan;
    const EarlierMap& earlier;

    [[nodiscard]] const PlannedCable& cable(const MappedStrand& strand) const {
        return plan.cables[static_cast<std::size_t>(strand.cable)];
    }
    [[nodiscard]] const PlannedLink& link(int index) const { return plan.links[static_cast<std::size_t>(index)]; }
    [[nodiscard]] const std::string& building_of(int link_index) const {
        return scenario.buildings[static_cast<std::size_t>(link(link_index).building)].id;
    }
    /// What an earlier map says of a strand; null when nothing.
    [[nodiscard]] const KeptStrand* before(const MappedStrand& strand) const {
        return earlier.of(cable(strand).id, strand.number);
    }
};

/// Strands of every cable: their colours, which link each carries, and what the others are for.
StrandMap numbered_strands(const MapTask& task, const ColourOrder& order);
/// What holds each end.
void plug(const MapTask& task, StrandMap& map);
/// Which port of powered gear each link's ends are patched to.
void patch(const MapTask& task, StrandMap& map);

/// One of the two ends of every strand, and where an earlier map speaks of it.
struct Side {
    StrandEnd MappedStrand::*end;
    int KeptStrand::*adapter;
    int KeptStrand::*port;
};
inline constexpr Side near_side{&MappedStrand::near, &KeptStrand::near_adapter, &KeptStrand::near_port};
inline constexpr Side far_side{&MappedStrand::far, &KeptStrand::far_adapter, &KeptStrand::far_port};

}  // namespace spadework
