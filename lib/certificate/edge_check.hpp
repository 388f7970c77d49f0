#pragma once

// Whether the edges of a relaxed problem charge no more than the site's segments do.

#include <string>
#include <vector>

#include "certificate/least_figures.hpp"
#include "layout/bound_certificate.hpp"
#include "scenario/scenario.hpp"

namespace spadework::certificate {

/// How a relaxed problem charges one cable, and what such a cable really pays at least.
struct CableCharge {
    std::string name;  ///< "the cable of building kiosk".
    graph::Cost weight = 0;
    graph::Cost multiplicity = 0;
    LeastCable least;
};

/// Most faults of one kind that are told.
inline constexpr std::size_t most_faults = 10;

/// Whether a cable may be charged for the coils it leaves in handholes, half of each on either side. A cable that
/// begins or ends in a handhole, other than the hub's or a building's place, is then charged half a coil too much
/// there.
enum class Coils { charged, not_charged };

/// Half of a handhole's coil, in millimetres, rounded down.
std::int64_t half_coil(const Scenario& scenario);

/// For each place half of its coil where it is a handhole, and neither the hub's place nor a building's; else 0.
std::vector<std::int64_t> half_coils_by_place(const Scenario& scenario);

/// Ducts and pulling of one cable through a segment, in solver units, rounded down. The hours a metre are a fraction,
/// so a little is taken off for the arithmetic.
Wide passage_units(const OpeningMethod& method, Length length, const Labour& labour, std::int64_t units_a_minor);

/// For each of the evidence's edges what a cable's charges leave out of what its price, duct and pulling come to there
/// at least, in whichever of the ways that the edge may stand for: its own, and those of its segment without an edge.
std::vector<Wide> left_on_edges(const Scenario& scenario, const RoutesEvidence& evidence, const CableCharge& cable,
                                Coils coils);

/// What runs through one edge really comes to.
struct RealEdge {
    std::int64_t millimetres = 0;  ///< Of cable, with half a coil for each end where one is left.
    Wide passage = 0;              ///< Duct and pulling of one cable, and the price on room, in solver units.
};

/// Each of the evidence's edges as the cheapest to pass of the ways that it may stand for.
std::vector<RealEdge> real_edges(const Scenario& scenario, const RoutesEvidence& evidence, Coils coils);

/// What one cable comes to on an edge by the metre, its passage included, in solver units, rounded down.
Wide real_charge(const LeastCable& cable, const RealEdge& edge, std::int64_t units_a_minor);

/// Edges of segments' ways that do not exist, ways that no edge stands for, and edges that charge more than the way
/// they stand for: a sentence part each.
std::vector<std::string> edge_faults(const Scenario& scenario, const std::vector<CertifiedEdge>& edges,
                                     std::int64_t units_a_minor, const std::vector<CableCharge>& cables, Coils coils);

}  // namespace spadework::certificate
