#include "layout/bought_cable.hpp"

#include <algorithm>
#include <optional>
#include <vector>

#include "rates/cable_rates.hpp"
#include "rates/cheapest_cover.hpp"

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

BoughtCable::BoughtCable(const Scenario& scenario, int strands) : scenario_(scenario), strands_(strands) {
    is_one_ = std::ranges::any_of(scenario.catalogue.cables,
                                  [strands](const CableProduct& cable) { return cable.strands >= strands; });
}

std::int64_t BoughtCable::price(std::int64_t millimetres) const {
    const Length route = Length::from_millimetres(millimetres);
    std::optional<std::int64_t> of_one;
    std::vector<CoverItem> items;
    for (const CableProduct& cable : scenario_.catalogue.cables) {
        if (is_one_ && cable.strands < strands_) continue;
        const std::int64_t price = price_of(scenario_, cable, route);
        of_one = std::min(of_one.value_or(price), price);
        items.push_back({cable.strands, price});
    }
    if (is_one_) return *of_one;
    std::int64_t sum = 0;
    const std::vector<int> counts = cheapest_cover(items, strands_).value_or(std::vector<int>(items.size(), 0));
    for (std::size_t i = 0; i < items.size(); ++i)
        sum += items[i].price * counts[i];
    return sum;
}

}  // namespace spadework
