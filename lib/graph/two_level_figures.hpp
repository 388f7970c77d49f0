#pragma once

// What the figures of a TwoLevelProblem mean: whether they may be worked on, and what feeders cost.

#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "graph/pair_routes.hpp"
#include "graph/two_level_problem.hpp"

namespace spadework::graph::two_level {

/// Every vertex named exists, no figure but a direct service's `fixed` is negative, the sizes ascend in units, and no
/// plan can cost 2^58 or more.
bool well_formed(const TwoLevelProblem& problem);

/// An amount no plan can pass: every edge opened, and every demand and every possible feeder taken over all edges. At
/// most 2^62 or so where it would be larger.
WideCost most_possible(const TwoLevelProblem& problem);

/// A feeder size without its place in the list of needed units: what it holds is counted in units served.
struct Feeder {
    std::int32_t size = 0;    ///< Index into the problem's sizes.
    std::int64_t serves = 0;  ///< Most units of demands, spare units and share already taken off.
    pair_routes::Charge charge;
    Cost fixed = 0;
};

/// The sizes that hold at least the spare units, in the problem's order.
std::vector<Feeder> usable_feeders(const TwoLevelProblem& problem);

/// The feeder that costs least to the site over a path of this length and passage among those that serve `units`,
/// smallest size first among equals; nothing when none does.
const Feeder* cheapest_feeder(const std::vector<Feeder>& feeders, const Site& site, std::int64_t units, Length length,
                              Cost passage);

/// What the size costs more when it leads to the site.
inline Cost feeder_extra(const Site& site, std::int32_t size) {
    return site.feeder_extra.empty() ? 0 : site.feeder_extra[static_cast<std::size_t>(size)];
}

/// What the feeder costs to the site over a path of this length and passage, the site's own cost left out.
inline Cost feeder_cost(const Feeder& feeder, const Site& site, Length length, Cost passage) {
    return feeder.fixed + feeder_extra(site, feeder.size) + feeder.charge.on(length, passage);
}

inline pair_routes::Charge service_charge(const TwoLevelDemand& demand) {
    return {demand.weight, demand.multiplicity};
}
inline pair_routes::Charge direct_charge(const DirectService& direct) {
    return {direct.weight, direct.multiplicity};
}

}  // namespace spadework::graph::two_level
