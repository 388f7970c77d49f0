#pragma once

// What a cable costs as it is bought: in whole steps of length, with joints, as the product that suits its length.

#include <cstdint>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework {

/// One cable that holds so many strands, whichever product is taken. What a metre of it costs at least and what its
/// ends cost at least are the figures of least_cable (its own steps of length and joints left out there).
class BoughtCable {
public:
    BoughtCable(const Scenario& scenario, int strands);

    /// Whether one product is large enough: else nothing is known here.
    [[nodiscard]] bool is_one() const { return !products_.empty(); }

    /// Least price in minor units of cable, factory-made ends and joints where route and coils come to so many
    /// millimetres (no less than 0), rounded down. Never falls with the length.
    [[nodiscard]] std::int64_t price(std::int64_t millimetres) const;

private:
    const Scenario& scenario_;
    std::vector<const CableProduct*> products_;
};

}  // namespace spadework
