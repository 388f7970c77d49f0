#pragma once

// What links and gear cost at least.

#include <cstdint>
#include <optional>

#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework::certificate {

/// The fastest rate any building wants.
BitRate fastest_rate(const Scenario& scenario);

/// Optics, cords and testing of one link over at least so much glass; nothing where no optic reaches.
std::optional<Money> least_link(const Scenario& scenario, BitRate rate, std::int64_t millimetres);

}  // namespace spadework::certificate
