#pragma once

#include "survey/line_network.hpp"

namespace spadework::survey {

/// What vanished because it was drawn twice.
struct Repeated {
    int pieces = 0;
    double metres = 0;
};

/// Leaves one of the edges that run between the same two vertices on the same level: the one whose ground the map
/// states, then one that may be used, then that of the first way. Chains fall into the runs that are left of them.
Repeated drop_repeated_edges(LineNetwork& network, const MapContents& contents);

/// Which chains hang together.
struct Parts {
    std::vector<int> of_chain;  ///< By chain; -1 for one that was not looked at.
    std::vector<double>
        metres;  ///< Geodesic length of each part. Parts count from 0 in the order of their first chain.
};

/// Parts of the chains of usable ways, or of all ways.
Parts parts_of(const LineNetwork& network, const std::vector<Way>& ways, bool barred_too);

/// Geodesic length of a chain.
double metres_of(const LineNetwork& network, const Chain& chain);

}  // namespace spadework::survey
