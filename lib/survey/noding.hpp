#pragma once

#include <vector>

#include "survey/line_network.hpp"

namespace spadework::survey {

/// Two lines that cross, or touch, without a vertex in common.
struct Crossing {
    Position at;  ///< Degrees.
    int way = 0;
    int other_way = 0;
};

struct Noding {
    std::vector<Crossing> joined;  ///< On the same level: a vertex was put into both.
    std::vector<Crossing> apart;   ///< On different levels: left as they are.
};

/// Joins lines where they cross, or come within 2 cm of each other's vertices, on the same level. Vertices that lines
/// share join them already, whatever their levels. Goes on until rounding the new vertices to 10^-7 degree brings no
/// further crossing about, at most 8 times.
Noding node_crossings(LineNetwork& network, const std::vector<Way>& ways, const LocalPlane& plane);

}  // namespace spadework::survey
