#include "certificate/least_figures.hpp"

#include <algorithm>
#include <limits>
#include <queue>
#include <set>
#include <utility>

#include "rates/cable_rates.hpp"
#include "rates/cheapest_cover.hpp"
#include "strands/strand_need.hpp"

namespace spadework::certificate {

namespace {

/// Least sum of a price over all sets of cables that hold the strands, or nothing. Where one cable is large enough, one
/// is taken.
template <typename Price>
std::optional<std::int64_t> least_of_sets(const Scenario& scenario, int strands, Price price) {
    std::vector<std::int64_t> alone;
    for (const CableProduct& cable : scenario.catalogue.cables) {
        if (cable.strands >= strands) alone.push_back(price(cable));
    }
    if (!alone.empty()) return *std::ranges::min_element(alone);
    std::vector<CoverItem> items;
    for (const CableProduct& cable : scenario.catalogue.cables)
        items.push_back({cable.strands, price(cable)});
    const auto counts = cheapest_cover(items, strands);
    if (!counts) return std::nullopt;
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < items.size(); ++i)
        sum += items[i].price * (*counts)[i];
    return sum;
}

bool factory_ends(const Scenario& scenario) {
    return scenario.rules.termination == Termination::factory;
}

std::int64_t material_of_ends(const Scenario& scenario, const CableProduct& cable) {
    return factory_ends(scenario) ? amount(cable.factory_end_price, std::int64_t{2}).minor() : 0;
}

/// Plugging, or splicing and pigtails, at both ends.
std::int64_t work_at_ends(const Scenario& scenario, int in_use) {
    const Labour& labour = scenario.labour;
    const SplicingPrices& splicing = scenario.catalogue.splicing;
    if (factory_ends(scenario)) return amount(labour.installer_rate, labour.plug_time * (2 * in_use)).minor();
    const WorkTime time = splicing.set_up_time * 2 + splicing.time_per_splice * (2 * in_use);
    return (amount(splicing.rate_per_hour, time) + amount(splicing.pigtail_price, std::int64_t{2} * in_use)).minor();
}

/// Prices a metre of new duct that a bill may hold a line of, 0 left out.
std::size_t duct_prices(const Scenario& scenario) {
    std::set<UnitPrice> prices = {scenario.existing_duct.duct_per_metre, scenario.pole_line.duct_per_metre};
    for (const Ground& ground : scenario.grounds) {
        for (const OpeningMethod& method : ground.methods)
            prices.insert(method.duct_per_metre);
    }
    prices.erase(UnitPrice());
    return prices.size();
}

/// In halves of a minor unit, what rounding may take off one cable: one half each for the cable's line, its pulling and
/// each price of duct; two each for material and work of its two ends; two for the sums above, which are rounded as a
/// whole where the bill rounds them apart. Half a second of pulling comes on top.
std::int64_t rounding_of_one(const Scenario& scenario) {
    const auto halves = 8 + static_cast<std::int64_t>(duct_prices(scenario));
    const std::int64_t half_a_second = scenario.labour.installer_rate.thousandths() / 7'200'000 + 1;
    return (halves + 1) / 2 + half_a_second;
}

/// Most cables in parallel that hold the strands without one to spare.
std::int64_t most_in_parallel(const Scenario& scenario, int strands) {
    const auto& cables = scenario.catalogue.cables;
    int largest = 0;
    int smallest = 0;
    for (const CableProduct& cable : cables) {
        largest = std::max(largest, cable.strands);
        smallest = smallest == 0 ? cable.strands : std::min(smallest, cable.strands);
    }
    if (largest >= strands) return 1;
    smallest = std::max(1, smallest);
    return (strands + smallest - 1) / smallest;
}

}  // namespace

std::vector<std::optional<std::int64_t>> shortest_millimetres(const Scenario& scenario, PlaceIndex from) {
    std::vector<std::vector<std::pair<PlaceIndex, std::int64_t>>> steps(scenario.places.size());
    for (const Segment& segment : scenario.segments) {
        if (!segment.ban.empty()) continue;
        steps[static_cast<std::size_t>(segment.from)].emplace_back(segment.to, segment.length.millimetres());
        steps[static_cast<std::size_t>(segment.to)].emplace_back(segment.from, segment.length.millimetres());
    }
    std::vector<std::optional<std::int64_t>> distance(scenario.places.size());
    using Entry = std::pair<std::int64_t, PlaceIndex>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue;
    queue.emplace(0, from);
    while (!queue.empty()) {
        const auto [here, place] = queue.top();
        queue.pop();
        auto& known = distance[static_cast<std::size_t>(place)];
        if (known) continue;
        known = here;
        for (const auto& [next, length] : steps[static_cast<std::size_t>(place)])
            queue.emplace(here + length, next);
    }
    return distance;
}

std::optional<LeastCable> least_cable(const Scenario& scenario, int strands, int in_use) {
    const Rules& rules = scenario.rules;
    const auto metre = least_of_sets(scenario, strands, [&](const CableProduct& cable) {
        return least_price_per_route_metre(cable, rules).thousandths();
    });
    const auto pieces = least_of_sets(scenario, strands, [](const CableProduct&) { return std::int64_t{1}; });
    const auto ends = least_of_sets(scenario, strands, [&](const CableProduct& cable) {
        return least_price_of_ends(cable, rules).minor() + material_of_ends(scenario, cable);
    });
    if (!metre || !pieces || !ends || scenario.catalogue.cables.empty()) return std::nullopt;
    LeastCable least;
    least.strands = strands;
    least.thousandths_a_metre = *metre;
    least.pieces = *pieces;
    least.ends = *ends;
    least.end_work = work_at_ends(scenario, in_use);
    least.rounding = rounding_of_one(scenario) * most_in_parallel(scenario, strands);
    return least;
}

std::int64_t beyond_least(const Scenario& scenario, const LeastCable& least, std::int64_t millimetres) {
    const auto of_products = least_of_sets(scenario, least.strands, [&](const CableProduct& cable) {
        const CableLengths lengths = cable_lengths(cable, Length::from_millimetres(millimetres), 0, scenario.rules);
        // One millimetre less, because lengths are rounded to millimetres; one minor unit a joint likewise.
        const std::int64_t metres = std::max<std::int64_t>(0, lengths.with_slack.millimetres() - 1);
        const std::int64_t joint = std::max<std::int64_t>(0, joint_work(cable, scenario).total().minor() - 1);
        const Wide price = static_cast<Wide>(cable.price_per_metre.thousandths()) * metres / 1'000'000 +
                           material_of_ends(scenario, cable) + Wide{joint} * lengths.joints;
        return static_cast<std::int64_t>(std::min<Wide>(price, std::numeric_limits<std::int64_t>::max()));
    });
    if (!of_products) return 0;
    const Wide metres = static_cast<Wide>(least.thousandths_a_metre) * millimetres;
    const Wide more = Wide{*of_products} - (metres + 999'999) / 1'000'000 - least.ends;
    return static_cast<std::int64_t>(std::max<Wide>(0, more));
}

}  // namespace spadework::certificate
