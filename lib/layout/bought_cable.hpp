#pragma once

// What a cable costs as it is bought: in whole steps of length, with joints, as the product that suits its length.

#include <cstdint>

#include "scenario/scenario.hpp"

namespace spadework {

/// A cable that holds so many strands, or several where no product is large enough. What a metre of it costs at least
/// and what its ends cost at least are the figures of least_cable (its own steps of length and joints left out there).
class BoughtCable {
public:
    BoughtCable(const Scenario& scenario, int strands);

    /// Least price in minor units of cable, factory-made ends and joints where route and coils come to so many
    /// millimetres (no less than 0), rounded down. Never falls with the length; 0 where the catalogue has no cable.
    [[nodiscard]] std::int64_t price(std::int64_t millimetres) const;

    /// By how many minor units rounding may take the price below the figures.
    [[nodiscard]] std::int64_t rounding() const { return is_one_ ? 1 : strands_; }

private:
    const Scenario& scenario_;
    int strands_ = 0;
    bool is_one_ = false;  ///< One product is large enough.
};

}  // namespace spadework
