#include "layout/cable_choice.hpp"

#include <algorithm>
#include <set>

#include "graph/saturating.hpp"
#include "rates/cable_rates.hpp"
#include "rates/cheapest_cover.hpp"

namespace spadework {

namespace {

__extension__ using Wide = __int128;

/// Least figures of the products that hold a need, work at the ends left out.
struct ProductFigures {
    UnitPrice per_route_metre;
    int pieces = 1;
    Money ends;
};

Money price_over(const Scenario& scenario, const CableProduct& cable, int strands, Length route) {
    const CableLengths lengths = cable_lengths(cable, route, 0, scenario.rules);
    return amount(cable.price_per_metre, lengths.ordered) + end_work(cable, strands, scenario).material * 2 +
           joint_work(cable, scenario).total() * lengths.joints;
}

/// Each product by a price of its own, for the cover.
template <typename Price>
std::vector<CoverItem> cover_items(const Scenario& scenario, Price price) {
    std::vector<CoverItem> items;
    for (const CableProduct& cable : scenario.catalogue.cables)
        items.push_back({cable.strands, price(cable)});
    return items;
}

/// Least of a price over all sets of cables that may carry the strands: one cable where one is large enough, else
/// several.
template <typename Price>
std::optional<std::int64_t> least_over_sets(const Scenario& scenario, int strands, Price price) {
    std::optional<std::int64_t> of_one;
    for (const CableProduct& cable : scenario.catalogue.cables) {
        if (cable.strands >= strands) of_one = std::min<std::int64_t>(of_one.value_or(price(cable)), price(cable));
    }
    if (of_one) return of_one;
    const auto items = cover_items(scenario, price);
    const auto counts = cheapest_cover(items, strands);
    if (!counts) return std::nullopt;
    std::int64_t total = 0;
    for (std::size_t i = 0; i < items.size(); ++i)
        total += items[i].price * (*counts)[i];
    return total;
}

/// Most cables that ever run in parallel for a need: one where one is large enough.
std::int64_t most_pieces(const Scenario& scenario, int strands) {
    const auto& cables = scenario.catalogue.cables;
    if (cables.empty() || cables.back().strands >= strands) return 1;
    const int smallest = std::max(1, cables.front().strands);
    return (strands + smallest - 1) / smallest;
}

/// The most by which the rounded lines of one cable can fall short of the figures of least_cable: half a minor unit for
/// the cable and for its pulling, a whole one for the material and for the work of both ends, half of one for each kind
/// of duct; half a second of pulling; and half of one each for what the two sums of least_cable were rounded up.
std::int64_t rounding_of_lines(const Scenario& scenario) {
    std::set<std::int64_t> duct_prices;
    const auto note = [&](const OpeningMethod& method) { duct_prices.insert(method.duct_per_metre.thousandths()); };
    for (const Ground& ground : scenario.grounds)
        std::for_each(ground.methods.begin(), ground.methods.end(), note);
    note(scenario.existing_duct);
    note(scenario.pole_line);
    duct_prices.erase(0);
    const std::int64_t halves = 8 + static_cast<std::int64_t>(duct_prices.size());
    return (halves + 1) / 2 + scenario.labour.installer_rate.thousandths() / (2 * 3600 * 1000) + 1;
}

/// What is paid at both ends for the product itself.
Money end_material(const Scenario& scenario, const CableProduct& cable) {
    const bool factory = scenario.rules.termination == Termination::factory;
    return factory ? amount(cable.factory_end_price, std::int64_t{2}) : Money();
}

/// Least price of the product over at least `route`, work at its ends left out; in minor units, rounded down. A
/// millimetre of cable and a minor unit a joint allow for rounding.
std::int64_t least_over(const Scenario& scenario, const CableProduct& cable, Length route) {
    const CableLengths lengths = cable_lengths(cable, route, 0, scenario.rules);
    const Wide metres = static_cast<Wide>(cable.price_per_metre.thousandths()) *
                        std::max<std::int64_t>(0, lengths.with_slack.millimetres() - 1);
    const Money joint = std::max(Money(), joint_work(cable, scenario).total() - Money::from_minor(1));
    const Money pieces = end_material(scenario, cable) + joint * lengths.joints;
    return graph::saturated(metres / 1'000'000 + pieces.minor());
}

/// Work and pigtails at both ends for the strands in use, whatever the product.
Money least_end_work(const Scenario& scenario, int in_use) {
    const Labour& labour = scenario.labour;
    const SplicingPrices& splicing = scenario.catalogue.splicing;
    if (scenario.rules.termination == Termination::factory) {
        return amount(labour.installer_rate, labour.plug_time * in_use * 2);
    }
    const WorkTime one_end = splicing.set_up_time + splicing.time_per_splice * in_use;
    return amount(splicing.rate_per_hour, one_end * 2) + amount(splicing.pigtail_price, std::int64_t{in_use} * 2);
}

std::optional<ProductFigures> product_figures(const Scenario& scenario, int strands) {
    const Rules& rules = scenario.rules;
    const auto metre = least_over_sets(scenario, strands, [&](const CableProduct& cable) {
        return least_price_per_route_metre(cable, rules).thousandths();
    });
    const auto pieces = least_over_sets(scenario, strands, [](const CableProduct&) { return std::int64_t{1}; });
    const auto ends = least_over_sets(scenario, strands, [&](const CableProduct& cable) {
        return (least_price_of_ends(cable, rules) + end_material(scenario, cable)).minor();
    });
    if (!metre || !pieces || !ends) return std::nullopt;
    return ProductFigures{UnitPrice::from_thousandths(*metre), static_cast<int>(*pieces), Money::from_minor(*ends)};
}

}  // namespace

std::optional<std::vector<int>> cheapest_cables(const Scenario& scenario, int strands, Length route, Money passage) {
    const auto& cables = scenario.catalogue.cables;
    std::vector<int> best;
    Money best_price;
    for (int i = 0; i < static_cast<int>(cables.size()); ++i) {
        const CableProduct& cable = cables[static_cast<std::size_t>(i)];
        if (cable.strands < strands) continue;
        const Money price = price_over(scenario, cable, strands, route);
        if (best.empty() || price < best_price) {
            best = {i};
            best_price = price;
        }
    }
    if (!best.empty()) return best;
    const auto counts = cheapest_cover(cover_items(scenario,
                                                   [&](const CableProduct& cable) {
                                                       const Money price =
                                                           price_over(scenario, cable, cable.strands, route);
                                                       return (price + passage).minor();
                                                   }),
                                       strands);
    if (!counts) return std::nullopt;
    for (std::size_t i = 0; i < counts->size(); ++i) {
        best.insert(best.end(), static_cast<std::size_t>((*counts)[i]), static_cast<int>(i));
    }
    return best;
}

std::optional<LeastCable> least_cable(const Scenario& scenario, int strands, int strands_in_use) {
    const auto figures = product_figures(scenario, strands);
    if (!figures) return std::nullopt;
    LeastCable least;
    least.per_route_metre = figures->per_route_metre;
    least.pieces = figures->pieces;
    least.of_product = figures->ends;
    least.ends = figures->ends + least_end_work(scenario, strands_in_use);
    least.rounding = Money::from_minor(rounding_of_lines(scenario) * most_pieces(scenario, strands));
    return least;
}

Money least_beyond_figures(const Scenario& scenario, int strands, Length route) {
    const auto figures = product_figures(scenario, strands);
    if (!figures) return Money();
    const auto least = least_over_sets(scenario, strands,
                                       [&](const CableProduct& cable) { return least_over(scenario, cable, route); });
    if (!least) return Money();
    const Wide metres = static_cast<Wide>(figures->per_route_metre.thousandths()) * route.millimetres();
    const Wide beyond = *least - (metres + 999'999) / 1'000'000 - figures->ends.minor();
    return Money::from_minor(static_cast<std::int64_t>(std::max<Wide>(0, beyond)));
}

}  // namespace spadework
