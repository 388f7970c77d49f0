#pragma once

// Everything that is checked of a plan before it is shown.

#include <string>
#include <vector>

#include "checks/finding.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Loss of one direction of a link against its two limits, dB.
struct DirectionLoss {
    double wavelength_nm = 0;
    double loss_db = 0;             ///< Fibre, mated pairs and splices at their greatest, attenuator, spare margin.
    double limit_db = 0;            ///< launch_min - receive_min - penalties.
    double margin_db = 0;           ///< limit - loss.
    double attenuator_db = 0;       ///< Of the attenuators on the way.
    double least_loss_db = 0;       ///< Fibre and attenuators alone: what overload is checked with.
    double overload_excess_db = 0;  ///< launch_max - least_loss - receive_max; above 0 the receiver is overloaded.
};

struct LinkBudget {
    int link = 0;  ///< Index into the plan's links.
    DirectionLoss to_building;
    DirectionLoss to_hub;
    Length longest_glass;  ///< What the optic carries through as many connections.
    [[nodiscard]] const DirectionLoss& worse() const {
        return to_hub.margin_db < to_building.margin_db ? to_hub : to_building;
    }
};

LinkBudget link_budget(const Scenario& scenario, const PlannedLink& link);
std::vector<LinkBudget> link_budgets(const Scenario& scenario, const Plan& plan);

/// What one failure takes down.
struct SingleCut {
    std::string what;                 ///< "segment drive", "enclosure at lawn-corner".
    std::vector<BuildingIndex> lost;  ///< Buildings without any link to the hub, ascending.
};

/// The single segment cut that takes down most buildings; ties by segment id. `lost` is empty for an empty plan.
SingleCut worst_cut(const Scenario& scenario, const Plan& plan);

/// All findings on a plan in a fixed order: by severity (errors first), kind, where.
Findings check(const Scenario& scenario, const Plan& plan);

}  // namespace spadework
