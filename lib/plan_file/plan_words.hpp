#pragma once

// The words that stand for roles, purposes and holders in plan files and certificates. Each list is in the order of its
// enumeration.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "layout/plan.hpp"

namespace spadework::plan_file {

/// "home-run", "trunk", …: what cables are for.
const std::vector<std::string>& role_words();
/// "in-use", "spare", …: what strands are for.
const std::vector<std::string>& purpose_words();
/// "hub-panel", "enclosure", …: what holds the end of a strand.
const std::vector<std::string>& holder_words();

/// Every layout there is, and their ids in the same order.
const std::vector<LayoutKind>& all_layouts();
const std::vector<std::string>& layout_ids();
/// The layout with the id, or nothing.
std::optional<LayoutKind> layout_with(std::string_view id);

}  // namespace spadework::plan_file
