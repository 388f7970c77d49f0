#pragma once

#include "scenario/scenario.hpp"
#include "support/street_map.hpp"

namespace spadework::bench {

/// invented_site() as the library reads it. Throws std::logic_error when the library has something to say about it.
Scenario invented_scenario(const SiteSize& size, std::uint64_t seed);

}  // namespace spadework::bench
