#pragma once

// The network's arcs grouped by the vertex they lead to, with what they cost against the potentials.

#include <cstdint>
#include <vector>

#include "graph/arc.hpp"

namespace spadework::graph {

constexpr std::uint32_t kNoArc = 0xFFFFFFFF;

/// Every demand searches in this one table. The potential of a vertex is what a demand pays at least from the nearest
/// root to there; charges against it are never below 0, so searches stay narrow. Vertices have spots here, numbered so
/// that those which searches visit together lie together in memory.
struct InwardArcs {
    /// `to_root` are the shortest reaches from the nearest root.
    InwardArcs(const SearchNetwork& network, const std::vector<PathLength>& to_root);

    /// What a demand pays itself on the arc at a place.
    [[nodiscard]] double own_charge(const PathRate& rate, std::uint32_t place) const {
        const double for_length = rate.weight * at[place].length_excess;
        return passage_excess.empty() ? for_length : for_length + rate.multiplicity * passage_excess[place];
    }

    struct Place {
        std::uint32_t tail = 0;      ///< Spot the arc comes from.
        double length_excess = 0.0;  ///< How much longer a path to a root gets that goes this way.
    };
    std::vector<std::uint32_t> spot_of;   ///< For each vertex.
    std::vector<std::uint32_t> first;     ///< Arcs into spot s are at places first[s] .. first[s+1]-1.
    std::vector<Place> at;                ///< For each place.
    std::vector<double> passage_excess;   ///< As the length excess; empty with one measure.
    std::vector<ArcId> arc;               ///< For each place.
    std::vector<std::uint32_t> place_of;  ///< For each arc.
};

}  // namespace spadework::graph
