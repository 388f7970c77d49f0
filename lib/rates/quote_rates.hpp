#pragma once

#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework {

/// What the customer pays on top of direct cost. Each part is rounded half up to a minor unit; the total never falls
/// when direct cost rises, so a bound on direct cost gives a bound on the total.
struct Quote {
    Money direct;
    Money contingency;  ///< Of direct.
    Money tax;          ///< Of direct and contingency.
    [[nodiscard]] Money total() const { return direct + contingency + tax; }
};

Quote quote_for(Money direct, const Rules& rules);

}  // namespace spadework
