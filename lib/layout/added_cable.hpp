#pragma once

// One more cable in a plan that is there already: trenches that are open cost it nothing.

#include <optional>
#include <set>
#include <vector>

#include "layout/plan.hpp"
#include "layout/service_figures.hpp"
#include "routing/network.hpp"

namespace spadework {

/// The cheapest ways of one more cable from a place to every other: the opening of what is not open yet, and what the
/// cable itself pays along its way (Dijkstra's algorithm). Ties go to the smaller place and the earlier edge.
class AddedCable {
public:
    AddedCable(const Network& network, const CableFigures& cable, const std::set<Step>& open, PlaceIndex from);
    /// The same where one place alone is asked for, which is quicker.
    AddedCable(const Network& network, const CableFigures& cable, const std::set<Step>& open, PlaceIndex from,
               PlaceIndex to);

    /// In solver units; empty where there is no way.
    [[nodiscard]] std::optional<graph::Cost> cost_to(PlaceIndex to) const;
    /// Edges from the start outwards. There must be a way.
    [[nodiscard]] std::vector<graph::EdgeId> way_to(PlaceIndex to) const;

private:
    static constexpr PlaceIndex everywhere = -1;

    const Network& network_;
    std::vector<graph::Cost> cost_;
    std::vector<graph::EdgeId> last_edge_;
};

}  // namespace spadework
