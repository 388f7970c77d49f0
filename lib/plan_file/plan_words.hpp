#pragma once

// The words that stand for roles, purposes and holders in plan files and certificates. Each list is in the order of its
// enumeration.

#include <string>
#include <vector>

#include "layout/plan.hpp"

namespace spadework::plan_file {

/// "home-run", "trunk", …: what cables are for.
const std::vector<std::string>& role_words();
/// "in-use", "spare", …: what strands are for.
const std::vector<std::string>& purpose_words();
/// "hub-panel", "enclosure", …: what holds the end of a strand.
const std::vector<std::string>& holder_words();

/// Every layout there is.
const std::vector<LayoutKind>& all_layouts();

}  // namespace spadework::plan_file
