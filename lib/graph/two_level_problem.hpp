#pragma once

// Routing with fan-out points: feeders run from one source to chosen sites, and demands hang from the sites.
//
// Choose which sites to open, which open site serves each demand (or the source itself, where the demand allows it), a
// path for the feeder of each open site from the source, and a path for each demand from what serves it, so that
//
//   sum over open sites of   site cost  +  feeder charge along the feeder's path
//   + sum over demands of    weight * length + multiplicity * passage  along the demand's path (or the direct figures)
//   + sum of the opening costs of all edges that carry any feeder or any demand, each paid once
//
// is smallest. A feeder's charge depends on the units it carries: the sum of `units` of the demands its site serves,
// looked up in the list of sizes. All figures are whole numbers in units the caller chooses.

#include <cstdint>
#include <optional>
#include <vector>

#include "graph/shared_cost_problem.hpp"

namespace spadework::graph {

/// One feeder size. A feeder takes the cheapest size (over its own path, to its own site) that holds its units.
struct FeederSize {
    std::int64_t units = 0;  ///< Most units this size carries.
    Cost weight = 0;         ///< Cost a length unit.
    Cost multiplicity = 1;   ///< How many times an edge's passage cost is paid.
    Cost fixed = 0;          ///< Paid once a feeder (ends, work at the site that grows with the size).
};

struct Site {
    VertexId at = 0;
    Cost cost = 0;                        ///< Paid when the site is open, whatever it serves.
    std::vector<Cost> feeder_extra = {};  ///< By size: what that size costs more when it leads here. Empty: nothing.
};

/// What a demand pays when it is served by the source directly, without a site.
struct DirectService {
    Cost weight = 0;
    Cost multiplicity = 1;
    Cost fixed = 0;  ///< Extra fixed cost (may be negative) against being served by a site.
};

struct TwoLevelDemand {
    VertexId at = 0;
    Cost weight = 0;
    Cost multiplicity = 1;
    std::int64_t units = 1;
    std::optional<DirectService> direct;  ///< Empty: the demand must be served by a site.
};

struct TwoLevelProblem {
    VertexId vertex_count = 0;
    std::vector<SharedCostEdge> edges;
    VertexId source = 0;
    std::vector<TwoLevelDemand> demands;
    std::vector<Site> sites;
    std::vector<FeederSize> sizes;  ///< Ascending in units. More units than the last: not possible.
    std::int64_t spare_units = 0;   ///< Added to the units of every open site's feeder.
    double spare_share = 0.0;       ///< Added to the units of every feeder: ceil(share * units served).
    std::int32_t fewest_sites = 0;  ///< At least this many sites must be open.
    std::int32_t most_sites = 1;    ///< At most this many.
};

struct TwoLevelPlan {
    struct OpenSite {
        std::int32_t site = 0;       ///< Index into the problem's sites, ascending.
        std::int32_t size = 0;       ///< Index into the problem's sizes.
        std::vector<EdgeId> feeder;  ///< From the source outwards.
    };
    std::vector<OpenSite> open;
    std::vector<std::int32_t> served_by;     ///< For each demand an index into `open`, or -1 for the source.
    std::vector<std::vector<EdgeId>> paths;  ///< For each demand, from what serves it outwards.
    Cost value = 0;
};

/// Where a search may begin: edges that join all demands and the open sites to the source, of a plan for a problem that
/// differs in prices only.
struct TwoLevelStart {
    std::vector<EdgeId> edges;
    std::vector<std::int32_t> open;  ///< Ascending indices into the problem's sites.
};

}  // namespace spadework::graph
