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

/// Edges of segments' ways that do not exist, ways that no edge stands for, and edges that charge more than the way
/// they stand for: a sentence part each.
std::vector<std::string> edge_faults(const Scenario& scenario, const std::vector<CertifiedEdge>& edges,
                                     std::int64_t units_a_minor, const std::vector<CableCharge>& cables, Coils coils);

}  // namespace spadework::certificate
