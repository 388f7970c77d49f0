#include "costing/line.hpp"
#include "costing/lines.hpp"

namespace spadework {

namespace {

/// So many pieces of a product, and the work of installing them.
template <typename Product>
void add_installed(Category category, const Product& product, int count, const Cause& cause, const Labour& labour,
                   std::vector<CostLine>& lines) {
    lines.push_back(line_of_pieces(category, product.id, count, product.price, cause));
    const Work work{product.install_time * count, labour.installer_rate, Trade::installer};
    add_unless_empty(line_of_work(category, "install " + product.id, work, cause), lines);
}

}  // namespace

void add_enclosure_lines(const Scenario& scenario, const Plan& plan, std::vector<CostLine>& lines) {
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        const Place& place = scenario.places[static_cast<std::size_t>(enclosure.place)];
        const Cause cause{CauseKind::enclosure, place.id};
        for (const Pieces& pieces : enclosure.products) {
            const auto& product = scenario.catalogue.enclosures[static_cast<std::size_t>(pieces.product)];
            add_installed(Category::enclosures, product, pieces.count, cause, scenario.labour, lines);
        }
        add_unless_empty(line_of_sum(Category::enclosures, "extra at this place", place.enclosure_extra, cause), lines);
    }
}

void add_gear_lines(const Scenario& scenario, const Plan& plan, std::vector<CostLine>& lines) {
    for (const PlannedGear& gear : plan.building_gear) {
        const auto& product = scenario.catalogue.building_gear[static_cast<std::size_t>(gear.pieces.product)];
        const Cause cause{CauseKind::building, scenario.buildings[static_cast<std::size_t>(gear.building)].id};
        add_installed(Category::endpoint_gear, product, gear.pieces.count, cause, scenario.labour, lines);
    }
    for (const Pieces& pieces : plan.hub_gear) {
        const auto& product = scenario.catalogue.hub_gear[static_cast<std::size_t>(pieces.product)];
        add_installed(Category::hub_gear, product, pieces.count, {CauseKind::hub, "hub"}, scenario.labour, lines);
    }
}

}  // namespace spadework
