#include "costing/line.hpp"
#include "costing/lines.hpp"
#include "rates/cord_rates.hpp"

namespace spadework {

namespace {

void add_link(const Scenario& scenario, const PlannedLink& link, std::vector<CostLine>& lines) {
    const Cause cause{CauseKind::building, scenario.buildings[static_cast<std::size_t>(link.building)].id};
    const OpticProduct& optic = scenario.catalogue.optics[static_cast<std::size_t>(link.optic)];
    lines.push_back(line_of_pieces(Category::optics, optic.id, 2, optic.price_per_end, cause));
    for (const auto& attenuator : {link.attenuator_at_start, link.attenuator_at_end}) {
        if (!attenuator) continue;
        const AttenuatorProduct& product = scenario.catalogue.attenuators[static_cast<std::size_t>(*attenuator)];
        lines.push_back(line_of_pieces(Category::optics, product.id, 1, product.price, cause));
    }
    if (const auto cord = cheapest_cord(scenario, link.strands)) {
        const PatchCordProduct& product = scenario.catalogue.patch_cords[static_cast<std::size_t>(*cord)];
        lines.push_back(line_of_pieces(Category::terminations, product.id, 2, product.price, cause));
    }
    const Work testing{test_work(link.strands, scenario.labour).time, scenario.labour.installer_rate, Trade::installer};
    add_unless_empty(line_of_work(Category::testing, "test link", testing, cause), lines);
}

}  // namespace

void add_link_lines(const Scenario& scenario, const Plan& plan, std::vector<CostLine>& lines) {
    for (const PlannedLink& link : plan.links)
        add_link(scenario, link, lines);
}

}  // namespace spadework
