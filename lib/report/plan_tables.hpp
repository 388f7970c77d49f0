#pragma once

#include <string>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Each enclosure: where, which product, adapters, strands, whom it serves. "" when the plan has none.
std::string enclosure_table(const Scenario& scenario, const Plan& plan);

/// Each cable: strands laid and in use, ends, lengths.
std::string cable_table(const Scenario& scenario, const Plan& plan);

/// Each link: optic, length of fibre, and loss against its limit in the worse direction.
std::string link_table(const Scenario& scenario, const LayoutResult& result);

/// "2 x post-12, 1 x post-24".
std::string pieces_in_words(const std::vector<Pieces>& pieces, const std::vector<EnclosureProduct>& products);

/// Strands that the enclosures of one place can patch through.
int adapters_of(const Scenario& scenario, const PlannedEnclosure& enclosure);

}  // namespace spadework
