#pragma once

#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Links by what they depend on, so that the buildings left after a failure are found quickly.
class Flood {
public:
    Flood(const Scenario& scenario, const Plan& plan);

    [[nodiscard]] const std::vector<int>& links_in(SegmentIndex segment) const;
    [[nodiscard]] const std::vector<int>& links_through(int enclosure) const;

    /// Buildings without any way to the hub when these links are down and this building's gear too (-1: none).
    [[nodiscard]] std::vector<BuildingIndex> lost(const std::vector<int>& links_down, BuildingIndex gear_down) const;

private:
    const Scenario& scenario_;
    const Plan& plan_;
    std::vector<std::vector<int>> links_in_;
    std::vector<std::vector<int>> links_through_;
    std::vector<std::vector<int>> links_at_;  ///< By building; the last entry is the hub's.
};

}  // namespace spadework
