#pragma once

// The site's segments as a routing problem's edges, and the way back.

#include <cstdint>
#include <optional>
#include <set>
#include <vector>

#include "graph/shared_cost_problem.hpp"
#include "rates/opening_rates.hpp"
#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework {

/// Whole solver cost units in one minor unit of money. Everything that goes into a bound is rounded down to a whole
/// unit.
struct CostScale {
    std::int64_t per_minor = 1'000'000;

    [[nodiscard]] graph::Cost units(Money money) const { return money.minor() * per_minor; }
    /// Cost units for each millimetre.
    [[nodiscard]] graph::Cost units_per_millimetre(UnitPrice per_metre) const {
        return per_metre.thousandths() * per_minor / 1'000'000;
    }
    /// The whole minor units in a cost, rounded down; a saving (below zero) is rounded to a larger saving.
    [[nodiscard]] Money money(graph::Cost cost) const {
        const graph::Cost whole = cost / per_minor;
        return Money::from_minor(cost % per_minor < 0 ? whole - 1 : whole);
    }
};

/// One way of one segment. Edge i of every problem built on the network is `edges[i]`; vertices are places.
struct NetworkEdge {
    SegmentIndex segment = 0;
    int way = 0;    ///< Index into ways_of(scenario, segment).
    int room = -1;  ///< Most cables; -1 for no limit. Routing problems do not know of it.
};

struct Network {
    CostScale scale;
    graph::VertexId vertex_count = 0;
    std::vector<graph::SharedCostEdge> edges;  ///< Lengths in millimetres.
    std::vector<NetworkEdge> origin;           ///< Parallel to edges.
};

/// Which ways of segments not to offer: (segment, way).
using WithheldWays = std::set<std::pair<SegmentIndex, int>>;

/// Every way of every segment that is not banned nor withheld. A way that neither opens nor passes cheaper than an
/// earlier way of the same segment without limited room is left out. An edge's passage cost is the least a cable pays
/// to go through: ducts and pulling, before any rounding of lines.
Network network_of(const Scenario& scenario, const WithheldWays& withheld = {});

}  // namespace spadework
