#pragma once

// What of an earlier plan's strands a plan can keep, and what it could not.

#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "strand_map/strand_map.hpp"

namespace spadework {

/// A cable of an earlier plan by names.
struct KeptCable {
    std::string id;
    std::string from;  ///< Place ids.
    std::string to;
};

/// The strands of an earlier plan with the cables they are in.
struct KeptMap {
    std::vector<KeptCable> cables;
    std::vector<KeptStrand> strands;
};

/// The rows of an earlier map whose cables a plan still has, between the same places.
std::vector<KeptStrand> strands_still_there(const Scenario& scenario, const Plan& plan, const KeptMap& earlier);

/// What became of an earlier plan's strands in use, by comparing the maps row by row: how many stay as they are, then
/// a sentence for each cable that is gone or leads elsewhere, and for each strand that had to move. Empty where the
/// earlier map has no strand in use.
std::vector<std::string> notes_on_kept(const Scenario& scenario, const Plan& plan, const StrandMap& map,
                                       const KeptMap& earlier);

}  // namespace spadework

// Lists that many sources copy: compiled once, in kept_map.cpp.
extern template class std::vector<spadework::KeptCable>;
extern template class std::vector<spadework::KeptStrand>;
