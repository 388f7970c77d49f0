#include "comparison/recount.hpp"

#include <cmath>
#include <optional>

namespace spadework::verification {

namespace {

__extension__ using Wide = __int128;

constexpr std::int64_t per_piece = 1000;         // thousandths of a minor unit
constexpr std::int64_t per_metre = 1000 * 1000;  // and millimetres
constexpr std::int64_t per_hour = 1000 * 3600;   // and seconds

std::int64_t for_pieces(UnitPrice price, std::int64_t pieces) {
    return product(price.thousandths(), pieces, per_piece);
}

std::int64_t for_length(UnitPrice price, std::int64_t millimetres) {
    return product(price.thousandths(), millimetres, per_metre);
}

std::int64_t for_time(UnitPrice rate, std::int64_t seconds) {
    return product(rate.thousandths(), seconds, per_hour);
}

void add_work(Recount& count, Category category, UnitPrice rate, std::int64_t seconds) {
    count[category].add(for_time(rate, seconds));
    count.labour_seconds += static_cast<double>(seconds);
}

void add_trench(Recount& count, const Scenario& scenario, const Step& step) {
    const Segment& segment = item(scenario.segments, step.segment);
    const OpeningMethod& method = *opened_way(scenario, step).method;
    const double hourly = static_cast<double>(scenario.labour.groundworks_rate.thousandths());
    const std::int64_t metre_price = std::llround(hourly * method.labour_hours_per_metre) +
                                     method.plant_per_metre.thousandths() + method.material_per_metre.thousandths() +
                                     method.reinstatement_per_metre.thousandths();
    const std::int64_t groundworks =
        for_length(UnitPrice::from_thousandths(metre_price), segment.length.millimetres()) + method.set_up.minor();
    std::int64_t charges = 0;
    for (const FixedCharge& charge : segment.charges)
        charges += charge.amount.minor();
    count[Category::groundworks].add(groundworks);
    count[Category::crossings_and_permits].add(charges);
    count.opening_by_segment[segment.id] += groundworks + charges;
    count.labour_seconds += segment.length.metres() * method.labour_hours_per_metre * 3600;
    count.labour_slack += 1;
}

void add_pulling(Recount& count, const Scenario& scenario, const PlannedCable& cable) {
    double seconds = 0;
    std::map<std::int64_t, std::int64_t> millimetres_by_duct_price;
    for (const Step& step : cable.steps) {
        const OpeningMethod& method = *opened_way(scenario, step).method;
        const Length length = item(scenario.segments, step.segment).length;
        seconds += length.metres() * method.pull_hours_per_metre * 3600;
        millimetres_by_duct_price[method.duct_per_metre.thousandths()] += length.millimetres();
    }
    const UnitPrice rate = scenario.labour.installer_rate;
    const double second = static_cast<double>(rate.thousandths()) / per_hour;
    count[Category::cable].add_within(for_time(rate, std::llround(seconds)), 1 + second);
    count.labour_seconds += seconds;
    count.labour_slack += 1;
    for (const auto& [price, millimetres] : millimetres_by_duct_price)
        count[Category::ducts].add(for_length(UnitPrice::from_thousandths(price), millimetres));
}

void add_ends(Recount& count, const Scenario& scenario, const PlannedCable& cable) {
    const CableProduct& cable_product = item(scenario.catalogue.cables, cable.product);
    const SplicingPrices& splicing = scenario.catalogue.splicing;
    const std::int64_t splice = splicing.time_per_splice.seconds();
    const std::int64_t set_up = splicing.set_up_time.seconds();
    const int strands = cable.need.in_use;
    if (scenario.rules.termination == Termination::factory) {
        count[Category::terminations].add(2 * for_pieces(cable_product.factory_end_price, 1));
        add_work(count, Category::terminations, scenario.labour.installer_rate,
                 2 * scenario.labour.plug_time.seconds() * strands);
    } else {
        count[Category::terminations].add(2 * for_pieces(splicing.pigtail_price, strands));
        add_work(count, Category::terminations, splicing.rate_per_hour, 2 * (set_up + splice * strands));
    }
    add_work(count, Category::terminations, splicing.rate_per_hour,
             (set_up + splice * cable_product.strands) * cable.lengths.joints);
}

void add_cable(Recount& count, const Scenario& scenario, const PlannedCable& cable) {
    const CableProduct& cable_product = item(scenario.catalogue.cables, cable.product);
    count[Category::cable].add(for_length(cable_product.price_per_metre, cable.lengths.ordered.millimetres()));
    add_pulling(count, scenario, cable);
    add_ends(count, scenario, cable);
}

template <typename Product>
void add_gear(Recount& count, Category category, const Labour& labour, const Pieces& pieces,
              const std::vector<Product>& products) {
    const Product& gear = item(products, pieces.product);
    count[category].add(for_pieces(gear.price, pieces.count));
    add_work(count, category, labour.installer_rate, gear.install_time.seconds() * pieces.count);
}

std::optional<UnitPrice> cheapest_cord_price(const Scenario& scenario, int strands) {
    std::optional<UnitPrice> price;
    for (const PatchCordProduct& cord : scenario.catalogue.patch_cords) {
        if (cord.strands == strands && (!price || cord.price < *price)) price = cord.price;
    }
    return price;
}

void add_link(Recount& count, const Scenario& scenario, const PlannedLink& link) {
    count[Category::optics].add(for_pieces(item(scenario.catalogue.optics, link.optic).price_per_end, 2));
    for (const auto& attenuator : {link.attenuator_at_start, link.attenuator_at_end}) {
        if (attenuator)
            count[Category::optics].add(for_pieces(item(scenario.catalogue.attenuators, *attenuator).price, 1));
    }
    const auto cord = cheapest_cord_price(scenario, link.strands);
    if (cord) count[Category::terminations].add(for_pieces(*cord, 2));
    add_work(count, Category::testing, scenario.labour.installer_rate,
             scenario.labour.test_time.seconds() * link.strands);
}

}  // namespace

std::int64_t product(std::int64_t price, std::int64_t quantity, std::int64_t divisor) {
    const Wide exact = static_cast<Wide>(price) * quantity;
    const Wide below = exact >= 0 ? exact / divisor : -((-exact + divisor - 1) / divisor);
    return static_cast<std::int64_t>(2 * (exact - below * divisor) >= divisor ? below + 1 : below);
}

Recount recount(const Scenario& scenario, const Plan& plan) {
    Recount count;
    for (const Step& step : plan.trenches)
        add_trench(count, scenario, step);
    for (const PlannedCable& cable : plan.cables)
        add_cable(count, scenario, cable);
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        for (const Pieces& pieces : enclosure.products)
            add_gear(count, Category::enclosures, scenario.labour, pieces, scenario.catalogue.enclosures);
        count[Category::enclosures].add(item(scenario.places, enclosure.place).enclosure_extra.minor());
    }
    for (const PlannedLink& link : plan.links)
        add_link(count, scenario, link);
    for (const PlannedGear& gear : plan.building_gear)
        add_gear(count, Category::endpoint_gear, scenario.labour, gear.pieces, scenario.catalogue.building_gear);
    for (const Pieces& pieces : plan.hub_gear)
        add_gear(count, Category::hub_gear, scenario.labour, pieces, scenario.catalogue.hub_gear);
    count[Category::mobilisation].add(scenario.labour.mobilisation.minor());
    return count;
}

}  // namespace spadework::verification
