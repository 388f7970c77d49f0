#pragma once

// One trunk as it lies in the ground, and what it would take to lay another beside it one day.

#include <string>
#include <vector>

#include "scenario/scenario.hpp"
#include "units/length.hpp"
#include "units/money.hpp"

namespace spadework {

/// Part of a trunk's way that is opened in one way.
struct TrunkStretch {
    std::string ground;  ///< Ground id, "existing duct" or "pole line".
    std::string method;  ///< Id of the method by which another trench is opened; "" where none ever needs to be.
    Length length;
    /// Cables that can be added later without opening anything; negative for no limit.
    int room = 0;
    bool dug_now = false;         ///< A trench stands open when the trunk is laid, and a spare duct could go into it.
    UnitPrice duct_per_metre;     ///< Of a spare duct, laid while the trench is open.
    UnitPrice passage_per_metre;  ///< Of a cable laid now: its duct and pulling.
    UnitPrice pulling_per_metre;  ///< Of a cable pulled later into what is there.
    Money opening_again;          ///< Groundworks, set-up and fixed charges of opening it once more.
    UnitPrice again_per_metre;    ///< Of a cable laid then: its duct and pulling.
    UnitPrice groundworks_per_metre;  ///< Of opening it again, set-up and charges apart.
};

/// A trunk's way, or one metre of a trunk where no way is known.
struct TrunkRun {
    bool planned = false;  ///< A whole trunk with its ends; one metre, and nothing that is paid once, when false.
    std::string place;     ///< Id of the place where it ends; "" for a metre.
    Length length;
    int handholes = 0;  ///< Passed between its ends.
    std::vector<TrunkStretch> stretches;
};

/// A trunk along segments passed in one of their ways (index into ways_of), where `others` tells how many cables of the
/// plan lie in each of these ways in all.
struct TrunkPart {
    SegmentIndex segment = 0;
    int way = 0;
    int cables = 1;
};
TrunkRun trunk_run(const Scenario& scenario, PlaceIndex to, const std::vector<TrunkPart>& parts, int handholes);

/// A metre of trunk through the ground that most of the map's metres lie in, opened in the cheapest way. No stretches
/// where the map has no segment that may be used.
TrunkRun metre_of_trunk(const Scenario& scenario);

/// What a trunk costs now, its trench apart: cable as ordered, duct, pulling, both ends for `strands` strands, joints.
/// In minor units. Of a metre: cable, duct and pulling.
double price_of_trunk(const Scenario& scenario, const TrunkRun& run, const CableProduct& cable, int strands);

/// What another trunk costs later, after `before` others were added: the cable with its ends for one link, pulled
/// through what has room, the rest opened again, and mobilisation. `spare_ducts` were laid in every trench. In minor
/// units.
double price_of_later_trunk(const Scenario& scenario, const TrunkRun& run, const CableProduct& cable, int before,
                            int spare_ducts);

/// A spare duct laid now in every trench of the way, in minor units.
double price_of_spare_duct(const TrunkRun& run);

}  // namespace spadework
