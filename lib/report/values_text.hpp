#pragma once

#include <string>
#include <vector>

#include "site_file/reading.hpp"

namespace spadework::report {

/// Every value in force with its unit and where it came from, one a line.
std::string values_text(const std::vector<site_file::ValueInForce>& values);

}  // namespace spadework::report
