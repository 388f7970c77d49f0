#pragma once

// Extensions worth pricing.

#include <string>
#include <vector>

#include "extension/joint_routes.hpp"

namespace spadework {

/// One way of serving all that is new, and what it is in words.
struct Candidate {
    RoutedExtension routed;
    std::string what;  ///< "" for one among many of its kind.
};

/// Sources with a dark strand at least: the hub first, then built enclosures.
std::vector<Source> sources_of(const ExtensionSearch& search);

/// The last building of each daisy chain that may grow by the hop limit; and, where there is one, every addition, for
/// another to hang on.
std::vector<Source> chain_ends_of(const ExtensionSearch& search);

/// Cables that lie dark from the hub, a built enclosure or the last building of a chain to the place of an addition,
/// and hold its strands: those of buildings that are gone.
std::vector<Source> dark_cables_of(const ExtensionSearch& search);

/// Every assignment of additions to sources where these are few, each in every order of laying where additions are few;
/// else each alone, and the cheapest of them one by one. Sources must hold the strands.
std::vector<Candidate> from_sources(const ExtensionSearch& search, const std::vector<Source>& sources);

/// A new enclosure at each place that may take one (the nearest of many), on a trunk from the hub, for all additions
/// together and, where these are few, for every part of them. None where the rules allow no further enclosure.
std::vector<Candidate> through_new_enclosures(const ExtensionSearch& search, const std::vector<Source>& sources);

/// Whether the rules allow an enclosure beyond those that stand.
bool may_add_enclosure(const ExtensionSearch& search);

}  // namespace spadework
