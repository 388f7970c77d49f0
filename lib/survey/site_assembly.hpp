#pragma once

#include <vector>

#include "survey/findings.hpp"
#include "survey/laterals.hpp"
#include "survey/line_network.hpp"
#include "survey/surveyed_site.hpp"

namespace spadework::survey {

/// Which chains go into the site.
struct ChosenChains {
    std::vector<char> taken;  ///< By chain of the network.
};

/// Gives every lateral its vertex, in the order of the laterals: an end of its edge within half a metre of its foot, or
/// a vertex that another lateral put there, or a new one, which is put into the edge.
std::vector<int> attach(LineNetwork& network, const std::vector<Lateral>& laterals);

/// Places and segments from the chains taken and the laterals, the hub's first: chains are cut where they meet, end or
/// a lateral leaves; a piece that would end where it starts is cut once more halfway. A building that stands on the
/// network takes over its vertex; a second one there is put in its own middle, or, where that is the same point, left
/// out and told of in `cut_off`. Metres, segments and laterals go into the findings.
SurveyedSite assemble_site(const LineNetwork& network, const MapContents& contents, const ChosenChains& chains,
                           const std::vector<Lateral>& laterals, const std::vector<int>& lateral_vertices,
                           const Walls& walls, SurveyFindings& findings);

}  // namespace spadework::survey
