#pragma once

#include <optional>
#include <string>
#include <vector>

#include "layout/plan.hpp"

namespace spadework::certificate {

/// What cables are called in certificates, in the order of CableRole.
const std::vector<std::string>& role_words();

/// Every layout there is.
const std::vector<LayoutKind>& all_layouts();

}  // namespace spadework::certificate
