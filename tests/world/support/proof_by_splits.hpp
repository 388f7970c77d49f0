#pragma once

// Whether a layout's bound rests on plans split by which edges they use.

#include <algorithm>

#include "layout/design.hpp"

namespace spadework::own {

/// How many pieces of the evidence have splits.
inline int pieces_proved_by_splits(const Scenario& site, LayoutKind kind) {
    const Design planned = design(kind, site, {});
    return static_cast<int>(
        std::ranges::count_if(planned.certificate.routes, [](const auto& routes) { return !routes->splits.empty(); }));
}

}  // namespace spadework::own
