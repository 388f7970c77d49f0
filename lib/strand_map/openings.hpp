#pragma once

#include <set>
#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "strand_map/strand_map.hpp"

namespace spadework {

/// Numbers from 1, given out the lowest first; some may be spoken for.
class Numbers {
public:
    /// Takes this number if it is free.
    bool take(int number);
    /// Takes the lowest that is free.
    int take_lowest();

private:
    std::set<int> taken_;
    int lowest_ = 1;
};

/// Like things side by side at one place, their openings counted through: three of 12 adapters have 36.
struct Row {
    std::vector<int> openings;  ///< Of each piece.
    bool first_is_old = false;  ///< The first was there before and counts as piece 0.
};

/// Whether the row has an opening of that number. One without pieces is a panel, which has as many as are wanted.
bool has_opening(const Row& row, int number);

/// The opening that has this number in the row, from 1. Beyond the last piece it is counted on there.
Opening opening_at(const Row& row, int number);
/// The number of an opening in the row: the inverse.
int number_of(const Row& row, const Opening& opening);

/// Ports of the hub's gear: those already there and free, then those of the plan's switches.
Row hub_ports(const Scenario& scenario, const Plan& plan);
/// Optic ports of a building's gear.
Row gear_ports(const Scenario& scenario, const Plan& plan, BuildingIndex building);
/// Adapters of the enclosures at one place.
Row enclosure_adapters(const Scenario& scenario, const PlannedEnclosure& enclosure);

}  // namespace spadework
