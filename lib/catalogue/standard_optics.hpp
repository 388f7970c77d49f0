#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/catalogue.hpp"

namespace spadework {

/// Optical figures of the standard single-mode Ethernet transceivers, without prices, in ascending rate and reach. Each
/// names its IEEE 802.3 clause and says where the figures were read.
const std::vector<OpticProduct>& standard_optics();

/// The standard optic of that name ("1000BASE-LX10"), or nothing.
std::optional<OpticProduct> standard_optic(std::string_view standard);

/// Names of the standard optics, for messages.
std::vector<std::string> standard_optic_names();

}  // namespace spadework
