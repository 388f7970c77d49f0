#include "doubt/priced_plan.hpp"

#include <algorithm>

#include "layout/assembly.hpp"
#include "rates/cord_rates.hpp"
#include "rates/opening_rates.hpp"
#include "rates/quote_rates.hpp"

namespace spadework {

namespace {

constexpr int existing_duct = -1;
constexpr int pole_line = -2;

/// Pieces of a product and the work of installing them, as a bill rounds them: each by itself.
template <typename Product>
Money installed(const Product& product, int pieces, const Labour& labour) {
    return amount(product.price, std::int64_t{pieces}) + amount(labour.installer_rate, product.install_time * pieces);
}

}  // namespace

struct PricedPlan::MethodPrices {
    UnitPrice groundworks;
    Money set_up;
    UnitPrice duct;
    double pull_hours = 0;
    std::size_t duct_class = 0;  ///< The same for all methods with one price of duct: a bill has one line for them.
};

PricedPlan::PricedPlan(const Scenario& scenario, const Plan& plan) {
    for (const Step& step : plan.trenches) {
        const Length length = scenario.segments[static_cast<std::size_t>(step.segment)].length;
        trenches_.push_back({step.segment, method_of(scenario, step), length});
    }
    take_cables(scenario, plan);
    take_gear(plan);
}

int PricedPlan::method_of(const Scenario& scenario, const Step& step) {
    const Segment& segment = scenario.segments[static_cast<std::size_t>(step.segment)];
    const auto of_ground = static_cast<int>(scenario.grounds[static_cast<std::size_t>(segment.ground)].methods.size());
    Method method{segment.ground, step.way};
    if (step.way >= of_ground) {
        const bool has_duct = segment.duct_room && *segment.duct_room > 0;
        method = {has_duct && step.way == of_ground ? existing_duct : pole_line, 0};
    }
    const auto known = std::find(methods_.begin(), methods_.end(), method);
    if (known != methods_.end()) return static_cast<int>(known - methods_.begin());
    methods_.push_back(method);
    return static_cast<int>(methods_.size()) - 1;
}

const OpeningMethod& PricedPlan::method_in(const Scenario& scenario, const Method& method) {
    if (method.ground == existing_duct) return scenario.existing_duct;
    if (method.ground == pole_line) return scenario.pole_line;
    return scenario.grounds[static_cast<std::size_t>(method.ground)].methods[static_cast<std::size_t>(method.number)];
}

void PricedPlan::add_lot(std::vector<Lot>& lots, int product, int pieces) {
    const auto same = std::find_if(lots.begin(), lots.end(),
                                   [&](const Lot& lot) { return lot.product == product && lot.pieces == pieces; });
    if (same == lots.end()) {
        lots.push_back({product, pieces, 1});
    } else {
        ++same->times;
    }
}

void PricedPlan::take_cables(const Scenario& scenario, const Plan& plan) {
    for (const PlannedCable& cable : plan.cables) {
        Cable taken{cable.product, cable.need.in_use, cable.lengths.ordered, cable.lengths.joints, {}};
        for (const Step& step : cable.steps) {
            const Length length = scenario.segments[static_cast<std::size_t>(step.segment)].length;
            taken.stretches.push_back({method_of(scenario, step), length});
        }
        cables_.push_back(std::move(taken));
    }
}

void PricedPlan::take_gear(const Plan& plan) {
    for (const PlannedLink& link : plan.links) {
        add_lot(optics_, link.optic, 2);
        add_lot(strands_, link.strands, 2);
        for (const auto& attenuator : {link.attenuator_at_start, link.attenuator_at_end}) {
            if (attenuator) add_lot(attenuators_, *attenuator, 1);
        }
    }
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        enclosure_places_.push_back(enclosure.place);
        for (const Pieces& pieces : enclosure.products)
            add_lot(enclosures_, pieces.product, pieces.count);
    }
    for (const PlannedGear& gear : plan.building_gear)
        add_lot(building_gear_, gear.pieces.product, gear.pieces.count);
    for (const Pieces& pieces : plan.hub_gear)
        add_lot(hub_gear_, pieces.product, pieces.count);
}

Money PricedPlan::cost_of_trenches(const Scenario& scenario, const std::vector<MethodPrices>& methods) const {
    Money cost;
    for (const Trench& trench : trenches_) {
        const MethodPrices& method = methods[static_cast<std::size_t>(trench.method)];
        cost += amount(method.groundworks, trench.length) + method.set_up;
        for (const FixedCharge& charge : scenario.segments[static_cast<std::size_t>(trench.segment)].charges)
            cost += charge.amount;
    }
    return cost;
}

Money PricedPlan::cost_of(const Cable& cable, const Scenario& scenario,
                          const std::vector<MethodPrices>& methods) const {
    const CableProduct& product = scenario.catalogue.cables[static_cast<std::size_t>(cable.product)];
    double pulling_hours = 0;
    std::vector<Length> duct(methods.size());
    for (const Stretch& stretch : cable.stretches) {
        const MethodPrices& method = methods[static_cast<std::size_t>(stretch.method)];
        pulling_hours += stretch.length.metres() * method.pull_hours;
        duct[method.duct_class] += stretch.length;
    }
    const EndWork end = end_work(product, cable.strands_in_use, scenario);
    Money cost = amount(product.price_per_metre, cable.ordered) +
                 amount(scenario.labour.installer_rate, WorkTime::from_hours(pulling_hours)) + end.material * 2 +
                 amount(end.rate, end.time * 2);
    for (std::size_t m = 0; m < methods.size(); ++m) {
        if (duct[m] > Length()) cost += amount(methods[m].duct, duct[m]);
    }
    if (cable.joints == 0) return cost;
    const EndWork joint = joint_work(product, scenario);
    return cost + amount(joint.rate, joint.time * cable.joints);
}

Money PricedPlan::cost_of_links(const Scenario& scenario) const {
    Money cost;
    for (const Lot& lot : optics_) {
        const OpticProduct& optic = scenario.catalogue.optics[static_cast<std::size_t>(lot.product)];
        cost += amount(optic.price_per_end, std::int64_t{2}) * lot.times;
    }
    for (const Lot& lot : attenuators_) {
        const AttenuatorProduct& product = scenario.catalogue.attenuators[static_cast<std::size_t>(lot.product)];
        cost += amount(product.price, std::int64_t{1}) * lot.times;
    }
    for (const Lot& lot : strands_) {
        cost += test_work(lot.product, scenario.labour).amount * lot.times;
        if (const auto cord = cheapest_cord(scenario, lot.product)) {
            const PatchCordProduct& product = scenario.catalogue.patch_cords[static_cast<std::size_t>(*cord)];
            cost += amount(product.price, std::int64_t{2}) * lot.times;
        }
    }
    return cost;
}

Money PricedPlan::cost_of_gear(const Scenario& scenario) const {
    Money cost;
    const auto add = [&](const auto& products, const std::vector<Lot>& lots) {
        for (const Lot& lot : lots) {
            const auto& product = products[static_cast<std::size_t>(lot.product)];
            cost += installed(product, lot.pieces, scenario.labour) * lot.times;
        }
    };
    add(scenario.catalogue.enclosures, enclosures_);
    add(scenario.catalogue.building_gear, building_gear_);
    add(scenario.catalogue.hub_gear, hub_gear_);
    for (const PlaceIndex place : enclosure_places_)
        cost += scenario.places[static_cast<std::size_t>(place)].enclosure_extra;
    return cost;
}

Money PricedPlan::total(const Scenario& scenario) const {
    std::vector<MethodPrices> methods;
    for (const Method& known : methods_) {
        const OpeningMethod& method = method_in(scenario, known);
        MethodPrices prices{groundworks_per_metre(method, scenario.labour), method.set_up, method.duct_per_metre,
                            method.pull_hours_per_metre, methods.size()};
        for (std::size_t m = 0; m < methods.size(); ++m) {
            if (methods[m].duct == prices.duct) prices.duct_class = std::min(prices.duct_class, m);
        }
        methods.push_back(prices);
    }
    Money direct = scenario.labour.mobilisation + cost_of_trenches(scenario, methods) + cost_of_links(scenario) +
                   cost_of_gear(scenario);
    for (const Cable& cable : cables_)
        direct += cost_of(cable, scenario, methods);
    return quote_for(direct, scenario.rules).total();
}

std::optional<Money> total_of_routes(const Scenario& scenario, const RoutedLayout& routes) {
    const Assembly assembly = assemble(scenario, routes);
    if (!assembly.plan) return std::nullopt;
    return PricedPlan(scenario, *assembly.plan).total(scenario);  // As its bill, without a bill's lines.
}

}  // namespace spadework
