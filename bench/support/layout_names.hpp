#pragma once

#include <string>
#include <vector>

#include "layout/plan.hpp"

namespace spadework::bench {

/// The layouts of these ids, in the order of LayoutKind; all of them for an empty list. Throws std::invalid_argument
/// when an id is unknown or given twice.
std::vector<LayoutKind> layouts_of(const std::vector<std::string>& ids);

}  // namespace spadework::bench
