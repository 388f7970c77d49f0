#include "layout/assembly.hpp"
#include "rates/cord_rates.hpp"
#include "rates/opening_rates.hpp"

namespace spadework {

namespace {

Money cost_of_cable(const Scenario& scenario, const PlannedCable& cable) {
    const CableProduct& product = scenario.catalogue.cables[static_cast<std::size_t>(cable.product)];
    const Money cost = amount(product.price_per_metre, cable.lengths.ordered) +
                       end_work(product, cable.need.in_use, scenario).total() * 2 +
                       joint_work(product, scenario).total() * cable.lengths.joints;
    return cost + passage_cost(scenario, cable.steps);
}

Money cost_of_gear(const Scenario& scenario, const Plan& plan) {
    Money cost = price_of(scenario, plan.hub_gear);
    for (const PlannedGear& gear : plan.building_gear) {
        const auto& product = scenario.catalogue.building_gear[static_cast<std::size_t>(gear.pieces.product)];
        cost += price_installed(product, gear.pieces.count, scenario.labour);
    }
    for (const PlannedLink& link : plan.links) {
        cost += amount(scenario.catalogue.optics[static_cast<std::size_t>(link.optic)].price_per_end, std::int64_t{2});
        for (const auto& attenuator : {link.attenuator_at_start, link.attenuator_at_end}) {
            if (!attenuator) continue;
            cost +=
                amount(scenario.catalogue.attenuators[static_cast<std::size_t>(*attenuator)].price, std::int64_t{1});
        }
        cost += test_work(link.strands, scenario.labour).amount;
        if (const auto cord = cheapest_cord(scenario, link.strands)) {
            cost += amount(scenario.catalogue.patch_cords[static_cast<std::size_t>(*cord)].price, std::int64_t{2});
        }
    }
    return cost;
}

}  // namespace

Money passage_cost(const Scenario& scenario, const std::vector<Step>& steps) {
    Money cost;
    for (const Step& step : steps) {
        const std::vector<Way> ways = ways_of(scenario, step.segment);
        const Way& way = ways[static_cast<std::size_t>(step.way)];
        cost += amount(passage_per_metre(*way.method, scenario.labour),
                       scenario.segments[static_cast<std::size_t>(step.segment)].length);
    }
    return cost;
}

Money cost_to_build(const Scenario& scenario, const Plan& plan) {
    Money cost = scenario.labour.mobilisation + cost_of_gear(scenario, plan);
    for (const Step& step : plan.trenches) {
        cost += ways_of(scenario, step.segment)[static_cast<std::size_t>(step.way)].opening;
    }
    for (const PlannedCable& cable : plan.cables)
        cost += cost_of_cable(scenario, cable);
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        cost += price_of_enclosures(scenario, enclosure.products) +
                scenario.places[static_cast<std::size_t>(enclosure.place)].enclosure_extra;
    }
    return cost;
}

}  // namespace spadework
