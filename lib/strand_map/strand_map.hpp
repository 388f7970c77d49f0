#pragma once

// Which strand carries what, and where its ends are plugged: the plan at the grain a crew works at.

#include <optional>
#include <string>
#include <vector>

#include "catalogue/fibre_colour.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// What holds the end of a strand.
enum class Holder {
    hub_panel,        ///< The panel in the hub room.
    enclosure,        ///< An adapter of an outdoor enclosure; the trunk on one side, the drop on the other.
    building_outlet,  ///< The panel or outlet box in a building.
    stored,           ///< Capped and laid in the tray: no adapter is set aside for it.
    spliced,          ///< Where a trunk was cut: spliced to the strand of its number in the next part.
};

/// "hub panel", "enclosure", "outlet", "stored", "spliced".
const char* name_of(Holder holder);

/// An opening of one of several like things at a place. Both count from 1; piece 0 is gear that was there before.
struct Opening {
    int piece = 0;
    int number = 0;
    friend bool operator==(const Opening&, const Opening&) = default;
    friend auto operator<=>(const Opening&, const Opening&) = default;
};

/// One end of a strand.
struct StrandEnd {
    PlaceIndex place = 0;
    Holder holder = Holder::stored;
    Opening adapter;              ///< Of that holder; 0, 0 when stored.
    std::optional<Opening> port;  ///< Of powered gear, where a patch cord leads from the adapter.
};

/// What a strand is for.
enum class StrandPurpose {
    link,         ///< It carries light.
    spare,        ///< By the spare policy.
    headroom,     ///< For growth.
    beyond_need,  ///< Laid because the cable is not sold with fewer.
};

/// "in use", "spare", "headroom", "beyond need".
const char* name_of(StrandPurpose purpose);

struct MappedStrand {
    int cable = 0;   ///< Index into the plan's cables.
    int number = 0;  ///< In the cable, from 1.
    StrandColour colour;
    StrandPurpose purpose = StrandPurpose::beyond_need;
    std::optional<int> link;  ///< Index into the plan's links.
    int leg = 0;              ///< Strand of its link, from 1: of two, the first carries light away from the hub.
    StrandEnd near;           ///< Nearer the hub.
    StrandEnd far;
};

/// Every strand of every cable of a plan, by cable and number.
using StrandMap = std::vector<MappedStrand>;

/// One strand of an earlier map by names that outlive a plan, so that what was plugged once stays where it is.
/// Adapters and ports are counted from 1 through all pieces at the place; 0 means none.
struct KeptStrand {
    std::string cable;
    int number = 0;
    std::string building;  ///< Whose link it carries; empty for a strand without light.
    int link = 0;          ///< Number of the link at that building.
    int leg = 0;
    int near_adapter = 0;
    int near_port = 0;
    int far_adapter = 0;
    int far_port = 0;
};

/// Maps the strands of a plan. Links take the lowest strands that are free in their cables, in the order of the plan's
/// links; then spares, headroom and the rest. What `kept` names stays as it was as far as the plan still has it: a
/// building that joins takes strands, adapters and ports that are free, and moves no other. A strand of a trunk that
/// was cut has one number in all parts it runs in; one that was led to an adapter at the cut ends there for good.
StrandMap map_strands(const Scenario& scenario, const Plan& plan, const ColourOrder& order,
                      const std::vector<KeptStrand>& kept = {});

/// A map as names, for a later one to keep to.
std::vector<KeptStrand> kept_strands(const Scenario& scenario, const Plan& plan, const StrandMap& map);

}  // namespace spadework

// Lists that many sources copy: compiled once, in strand_map.cpp.
extern template class std::vector<spadework::MappedStrand>;
