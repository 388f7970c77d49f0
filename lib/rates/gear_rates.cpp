#include "rates/gear_rates.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

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

/// What one piece of gear has left.
struct PieceLeft {
    int ports = 0;
    std::int64_t milliwatts = 0;
};

std::vector<PieceLeft> pieces_in_a_row(const BuildingGearProduct& product, int pieces) {
    std::vector<PieceLeft> row;
    for (int i = 0; i < pieces; ++i) {
        const int joined = (i > 0 ? 1 : 0) + (i + 1 < pieces ? 1 : 0);
        row.push_back({product.copper_ports - joined, in_milliwatts(product.poe_budget_w)});
    }
    return row;
}

/// How many devices take each figure of power at the supplying side, hungriest first; nothing where no class will do.
using DevicesByPower = std::map<std::int64_t, int, std::greater<>>;
std::optional<DevicesByPower> devices_by_power(const Building& building) {
    DevicesByPower devices;
    for (const DeviceGroup& group : building.devices) {
        if (group.watts <= 0) continue;
        const auto poe = poe_class_for(group.watts);
        if (!poe) return std::nullopt;
        devices[in_milliwatts(poe->source_w)] += group.count;
    }
    return devices;
}

/// What a building asks of its gear.
struct Asked {
    GearNeed need;
    int ports = 0;
    DevicesByPower devices;
};

bool power_suffices(const BuildingGearProduct& product, int pieces, const DevicesByPower& devices) {
    std::vector<PieceLeft> row = pieces_in_a_row(product, pieces);
    for (const auto& [milliwatts, count] : devices) {
        std::int64_t left = count;
        for (PieceLeft& piece : row) {
            const std::int64_t here =
                std::min({left, std::int64_t{std::max(0, piece.ports)}, piece.milliwatts / milliwatts});
            piece.ports -= static_cast<int>(here);
            piece.milliwatts -= here * milliwatts;
            left -= here;
        }
        if (left > 0) return false;
    }
    return true;
}

/// Fewest pieces of a product that serve what is asked, or 0 when no number does.
int pieces_needed(const BuildingGearProduct& product, const Asked& asked) {
    if (product.optic_ports < asked.need.optic_ports || product.fastest_rate < asked.need.rate) return 0;
    for (int pieces = 1; pieces <= most_pieces_in_a_building; ++pieces) {
        if (free_copper_ports(product, pieces) >= asked.ports && power_suffices(product, pieces, asked.devices))
            return pieces;
    }
    return 0;
}

/// In how many ways gear does not serve, and by what shares of what is needed.
struct Lack {
    int ways = 0;
    double shares = 0;
    Money price;
    void add(double needed, double have) {
        if (have >= needed) return;
        ++ways;
        shares += (needed - have) / needed;
    }
    friend bool operator<(const Lack& a, const Lack& b) {
        return std::tie(a.ways, a.shares, a.price) < std::tie(b.ways, b.shares, b.price);
    }
};

Lack lack_of(const BuildingGearProduct& product, int pieces, const Building& building, const GearNeed& need,
             int ports) {
    Lack lack;
    lack.add(need.optic_ports, product.optic_ports);
    lack.add(static_cast<double>(need.rate.megabits()), static_cast<double>(product.fastest_rate.megabits()));
    lack.add(ports, std::max(0, free_copper_ports(product, pieces)));
    if (power_suffices(product, pieces, building)) return lack;
    const double watts = poe_demand_w(building).value_or(0);
    ++lack.ways;
    if (watts > 0) lack.shares += std::max(0.0, watts - pieces * product.poe_budget_w) / watts;
    return lack;
}

std::vector<Pieces> taken(const std::vector<int>& counts) {
    std::vector<Pieces> pieces;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (counts[i] > 0) pieces.push_back({static_cast<int>(i), counts[i]});
    }
    return pieces;
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
    return taken(*counts);
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

bool power_suffices(const BuildingGearProduct& product, int pieces, const Building& building) {
    const auto devices = devices_by_power(building);
    return devices && power_suffices(product, pieces, *devices);
}

int free_copper_ports(const BuildingGearProduct& product, int pieces) {
    return pieces * product.copper_ports - 2 * (pieces - 1);
}

int copper_ports_needed(const Building& building, const Rules& rules) {
    return device_count(building) + rules.spare_copper_ports;
}

std::optional<Pieces> cheapest_building_gear(const Scenario& scenario, const Building& building, const GearNeed& need) {
    const auto devices = devices_by_power(building);
    if (!devices) return std::nullopt;
    const Asked asked{need, copper_ports_needed(building, scenario.rules), *devices};
    const bool one_device = device_count(building) <= 1;
    std::optional<Pieces> best;
    Money best_price;
    const auto& products = scenario.catalogue.building_gear;
    for (std::size_t i = 0; i < products.size(); ++i) {
        if (products[i].kind == GearKind::media_converter && !one_device) continue;
        const int pieces = pieces_needed(products[i], asked);
        if (pieces == 0) continue;
        const Money price = price_installed(products[i], pieces, scenario.labour);
        if (!best || price < best_price) {
            best = Pieces{static_cast<int>(i), pieces};
            best_price = price;
        }
    }
    return best;
}

std::optional<Pieces> nearest_building_gear(const Scenario& scenario, const Building& building, const GearNeed& need) {
    const int ports = copper_ports_needed(building, scenario.rules);
    std::optional<Pieces> nearest;
    Lack least;
    for (std::size_t i = 0; i < scenario.catalogue.building_gear.size(); ++i) {
        const BuildingGearProduct& product = scenario.catalogue.building_gear[i];
        for (int pieces = 1; pieces <= most_pieces_in_a_building; ++pieces) {
            Lack here = lack_of(product, pieces, building, need, ports);
            here.price = price_installed(product, pieces, scenario.labour);
            if (nearest && !(here < least)) continue;
            nearest = Pieces{static_cast<int>(i), pieces};
            least = here;
        }
    }
    return nearest;
}

int hub_copper_ports_needed(const Hub& hub) {
    int ports = 0;
    for (const HubDevice& device : hub.devices)
        ports += device.count;
    return ports;
}

std::optional<std::vector<Pieces>> cheapest_hub_gear(const Scenario& scenario, int optic_ports, BitRate rate) {
    const Hub& hub = scenario.hub;
    std::vector<CoverItemOfTwo> items;
    for (const HubGearProduct& product : scenario.catalogue.hub_gear) {
        const int optic = product.fastest_rate >= rate ? product.optic_ports : 0;
        items.push_back({optic, product.copper_ports, price_installed(product, 1, scenario.labour).minor()});
    }
    const auto counts =
        cheapest_cover_of_two(items, std::int64_t{optic_ports} + hub.growth_ports - hub.free_optic_ports,
                              std::int64_t{hub_copper_ports_needed(hub)} - hub.free_copper_ports);
    if (!counts) return std::nullopt;
    return taken(*counts);
}

std::string why_no_hub_gear(const Scenario& scenario, int optic_ports, BitRate rate) {
    const Hub& hub = scenario.hub;
    const int optic = optic_ports + hub.growth_ports;
    const int copper = hub_copper_ports_needed(hub);
    const bool lacks_optic = optic > hub.free_optic_ports;
    std::string why = "hub: ";
    if (lacks_optic) {
        why += std::to_string(optic) + " optic ports are needed, " + std::to_string(hub.free_optic_ports) + " are free";
    }
    if (copper > hub.free_copper_ports) {
        why += std::string(lacks_optic ? ", " : "") + std::to_string(copper) + " copper ports are needed, " +
               std::to_string(hub.free_copper_ports) + " are free";
    }
    return why + ", and no gear in the catalogue has more at " + to_text(rate);
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
