#include "layout/bought_cable.hpp"

#include <algorithm>
#include <limits>

#include "rates/cable_rates.hpp"

namespace spadework {

namespace {

__extension__ using Wide = __int128;

constexpr Wide thousandths_and_millimetres = 1'000'000;

/// Of one product. A joint's work is rounded as a whole for all joints in a bill, hence a minor unit less for each.
std::int64_t price_of(const Scenario& scenario, const CableProduct& cable, Length route) {
    const CableLengths lengths = cable_lengths(cable, route, 0, scenario.rules);
    const bool factory = scenario.rules.termination == Termination::factory;
    const Wide metres = static_cast<Wide>(cable.price_per_metre.thousandths()) * lengths.ordered.millimetres();
    const Money ends = factory ? amount(cable.factory_end_price, std::int64_t{2}) : Money();
    const Money joint = std::max(Money(), joint_work(cable, scenario).total() - Money::from_minor(1));
    return static_cast<std::int64_t>(metres / thousandths_and_millimetres) + (ends + joint * lengths.joints).minor();
}

}  // namespace

BoughtCable::BoughtCable(const Scenario& scenario, int strands) : scenario_(scenario) {
    for (const CableProduct& cable : scenario.catalogue.cables) {
        if (cable.strands >= strands) products_.push_back(&cable);
    }
}

std::int64_t BoughtCable::price(std::int64_t millimetres) const {
    std::int64_t least = std::numeric_limits<std::int64_t>::max();
    for (const CableProduct* product : products_)
        least = std::min(least, price_of(scenario_, *product, Length::from_millimetres(millimetres)));
    return least;
}

}  // namespace spadework
