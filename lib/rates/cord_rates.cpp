#include "rates/cord_rates.hpp"

namespace spadework {

std::optional<int> cheapest_cord(const Scenario& scenario, int strands) {
    const auto& cords = scenario.catalogue.patch_cords;
    std::optional<int> best;
    for (int i = 0; i < static_cast<int>(cords.size()); ++i) {
        const PatchCordProduct& cord = cords[static_cast<std::size_t>(i)];
        if (cord.strands != strands) continue;
        if (!best || cord.price < cords[static_cast<std::size_t>(*best)].price) best = i;
    }
    return best;
}

}  // namespace spadework
