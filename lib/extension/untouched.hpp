#pragma once

// Whether an extension leaves every link of the plan before it alone: compared strand by strand, by names, with code
// that shares nothing with what plans or maps.

#include <string>
#include <utility>
#include <vector>

#include "strand_map/strand_map.hpp"

namespace spadework {

/// A link by its building and its number there.
using LinkName = std::pair<std::string, int>;

/// A link that is not as it was, and in what.
struct TouchedLink {
    std::string building;
    int link = 0;
    std::string how;  ///< "trunk-a strand 3 carries leg 2 no longer".
};

struct Untouched {
    int links = 0;    ///< Compared.
    int strands = 0;  ///< Strands in use that are as they were.
    std::vector<TouchedLink> touched;
    int freed = 0;  ///< Strands that carried links of buildings that are gone, and are dark now.
};

/// Compares two maps. Links of the buildings in `gone` are expected to have gone; every other strand in use must carry
/// the same leg of the same link between the same adapters and ports.
Untouched compare_strands(const std::vector<KeptStrand>& before, const std::vector<KeptStrand>& after,
                          const std::vector<std::string>& gone);

}  // namespace spadework
