#include "rates/gear_rates.hpp"

#include <algorithm>
#include <cmath>

#include "catalogue/poe_class.hpp"
#include "rates/cheapest_cover.hpp"

namespace spadework {

namespace {

constexpr int most_pieces_in_a_building = 64;

template <typename Product>
Money installed(const Product& product, int count, const Labour& labour) {
    return amount(product.price, std::int64_t{count}) + amount(labour.installer_rate, product.install_time * count);
}

std::int64_t in_milliwatts(double watts) {
    return std::llround(watts * 1000.0);
}

int device_count(const Building& building) {
    int count = 0;
    for (const DeviceGroup& group : building.devices)
        count += group.count;
    return count;
}

bool serves(const BuildingGearProduct& product, int pieces, const GearNeed& need, int ports, double watts) {
    const int free_ports = pieces * product.copper_ports - 2 * (pieces - 1);
    return product.optic_ports >= need.optic_ports && product.fastest_rate >= need.rate && free_ports >= ports &&
           power_suffices(product, pieces, watts);
}

/// Fewest pieces of a product that serve the need, or 0 when no number does.
int pieces_needed(const BuildingGearProduct& product, const GearNeed& need, int ports, double watts) {
    for (int pieces = 1; pieces <= most_pieces_in_a_building; ++pieces) {
        if (serves(product, pieces, need, ports, watts)) return pieces;
    }
    return 0;
}

template <typename Product, typename Capacity>
std::optional<std::vector<Pieces>> cheapest_pieces(const std::vector<Product>& products, std::int64_t need,
                                                   const Labour& labour, Capacity capacity) {
    std::vector<CoverItem> items;
    for (const Product& product : products) {
        items.push_back({capacity(product), price_installed(product, 1, labour).minor()});
    }
    const auto counts = cheapest_cover(items, need);
    if (!counts) return std::nullopt;
    std::vector<Pieces> pieces;
    for (std::size_t i = 0; i < counts->size(); ++i) {
        if ((*counts)[i] > 0) pieces.push_back({static_cast<int>(i), (*counts)[i]});
    }
    return pieces;
}

template <typename Product>
Money total_price(const std::vector<Product>& products, const std::vector<Pieces>& pieces, const Labour& labour) {
    Money total;
    for (const Pieces& p : pieces)
        total += price_installed(products[static_cast<std::size_t>(p.product)], p.count, labour);
    return total;
}

}  // namespace

Money price_installed(const BuildingGearProduct& product, int count, const Labour& labour) {
    return installed(product, count, labour);
}
Money price_installed(const HubGearProduct& product, int count, const Labour& labour) {
    return installed(product, count, labour);
}
Money price_installed(const EnclosureProduct& product, int count, const Labour& labour) {
    return installed(product, count, labour);
}

std::optional<double> poe_demand_w(const Building& building) {
    std::int64_t milliwatts = 0;  // whole, so that thirteen times 15.4 W are 200.2 W
    for (const DeviceGroup& group : building.devices) {
        if (group.watts <= 0) continue;
        const auto poe = poe_class_for(group.watts);
        if (!poe) return std::nullopt;
        milliwatts += group.count * in_milliwatts(poe->source_w);
    }
    return static_cast<double>(milliwatts) / 1000.0;
}

bool power_suffices(const BuildingGearProduct& product, int pieces, double watts) {
    return pieces * in_milliwatts(product.poe_budget_w) >= in_milliwatts(watts);
}

int copper_ports_needed(const Building& building, const Rules& rules) {
    return device_count(building) + rules.spare_copper_ports;
}

std::optional<Pieces> cheapest_building_gear(const Scenario& scenario, const Building& building, const GearNeed& need) {
    const auto watts = poe_demand_w(building);
    if (!watts) return std::nullopt;
    const int ports = copper_ports_needed(building, scenario.rules);
    const bool one_device = device_count(building) <= 1;
    std::optional<Pieces> best;
    Money best_price;
    const auto& products = scenario.catalogue.building_gear;
    for (std::size_t i = 0; i < products.size(); ++i) {
        if (products[i].kind == GearKind::media_converter && !one_device) continue;
        const int pieces = pieces_needed(products[i], need, ports, *watts);
        if (pieces == 0) continue;
        const Money price = price_installed(products[i], pieces, scenario.labour);
        if (!best || price < best_price) {
            best = Pieces{static_cast<int>(i), pieces};
            best_price = price;
        }
    }
    return best;
}

std::optional<std::vector<Pieces>> cheapest_hub_gear(const Scenario& scenario, int optic_ports, BitRate rate) {
    const std::int64_t need = optic_ports - scenario.hub.free_optic_ports;
    return cheapest_pieces(scenario.catalogue.hub_gear, need, scenario.labour, [rate](const HubGearProduct& product) {
        return product.fastest_rate >= rate ? std::int64_t{product.optic_ports} : std::int64_t{0};
    });
}

std::optional<std::vector<Pieces>> cheapest_enclosures(const Scenario& scenario, int adapters) {
    return cheapest_pieces(scenario.catalogue.enclosures, std::max(1, adapters), scenario.labour,
                           [](const EnclosureProduct& product) { return std::int64_t{product.adapters}; });
}

Money price_of(const Scenario& scenario, const std::vector<Pieces>& hub_gear) {
    return total_price(scenario.catalogue.hub_gear, hub_gear, scenario.labour);
}

Money price_of_enclosures(const Scenario& scenario, const std::vector<Pieces>& enclosures) {
    return total_price(scenario.catalogue.enclosures, enclosures, scenario.labour);
}

}  // namespace spadework
