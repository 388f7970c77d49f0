#include "world/support/own_prices.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

namespace spadework::own {

namespace {

__extension__ using Wide = __int128;

/// price * quantity / per, rounded half up.
Cents rounded(std::int64_t price, std::int64_t quantity, std::int64_t per) {
    return static_cast<Cents>((static_cast<Wide>(price) * quantity * 2 + per) / (static_cast<Wide>(per) * 2));
}
Cents for_metres(UnitPrice price, std::int64_t millimetres) {
    return rounded(price.thousandths(), millimetres, 1'000'000);
}
Cents for_pieces(UnitPrice price, std::int64_t pieces) {
    return rounded(price.thousandths(), pieces, 1000);
}
Cents for_seconds(UnitPrice price, std::int64_t seconds) {
    return rounded(price.thousandths(), seconds, 3'600'000);
}

bool spliced(const Scenario& site) {
    return site.rules.termination == Termination::spliced;
}

std::int64_t up_to_step(std::int64_t millimetres, std::int64_t step) {
    return step <= 1 ? millimetres : (millimetres + step - 1) / step * step;
}

int joints_of(const Scenario& site, const CableProduct& product, const Run& run) {
    const std::int64_t step = spliced(site) ? 1000 : product.length_step.millimetres();
    const std::int64_t ordered = up_to_step(with_slack(site, run), step);
    int pieces = 1;
    while (product.longest.millimetres() > 0 && pieces * product.longest.millimetres() < ordered)
        ++pieces;
    return pieces - 1;
}

Cents cable_of(const Scenario& site, const CableProduct& product, int in_use, const Run& run) {
    const SplicingPrices& splicing = site.catalogue.splicing;
    const std::int64_t step = spliced(site) ? 1000 : product.length_step.millimetres();
    Cents cost = for_metres(product.price_per_metre, up_to_step(with_slack(site, run), step));
    cost += for_seconds(site.labour.installer_rate, std::llround(run.pull_hours * 3600.0));
    for (const auto& [price, millimetres] : run.duct)
        cost += for_metres(UnitPrice::from_thousandths(price), millimetres);
    if (spliced(site)) {
        const std::int64_t end = splicing.set_up_time.seconds() + splicing.time_per_splice.seconds() * in_use;
        cost += 2 * for_pieces(splicing.pigtail_price, in_use) + for_seconds(splicing.rate_per_hour, 2 * end);
    } else {
        cost += 2 * for_pieces(product.factory_end_price, 1);
        cost += for_seconds(site.labour.installer_rate, 2 * site.labour.plug_time.seconds() * in_use);
    }
    const std::int64_t joint = splicing.set_up_time.seconds() + splicing.time_per_splice.seconds() * product.strands;
    return cost + for_seconds(splicing.rate_per_hour, joint * joints_of(site, product, run));
}

/// The cheapest product large enough, if any.
const CableProduct* product_for(const Scenario& site, int strands, int in_use, const Run& run) {
    const CableProduct* best = nullptr;
    for (const CableProduct& product : site.catalogue.cables) {
        if (product.strands < strands) continue;
        if (best == nullptr || cable_of(site, product, in_use, run) < cable_of(site, *best, in_use, run)) {
            best = &product;
        }
    }
    return best;
}

bool arrives(const OpticalFigures& figures, double fibre_db, double extra_db) {
    const double least = figures.launch_min_dbm - fibre_db - extra_db - figures.penalties_db;
    const double most = figures.launch_max_dbm - fibre_db;
    return least >= figures.receive_min_dbm - 1e-9 && most <= figures.receive_max_dbm + 1e-9;
}

template <typename Product>
Cents installed(const Scenario& site, const Product& product, int count) {
    return for_pieces(product.price, count) +
           for_seconds(site.labour.installer_rate, product.install_time.seconds() * count);
}

/// Least price of pieces whose sizes sum to the need: every count of every product, by recursion over products.
template <typename Product, typename Size>
std::optional<Cents> cheapest_pieces(const Scenario& site, const std::vector<Product>& products, int need, Size size,
                                     std::size_t at = 0) {
    if (need <= 0) return 0;
    if (at == products.size()) return std::nullopt;
    std::optional<Cents> best;
    for (int count = 0;; ++count) {
        const auto rest = cheapest_pieces(site, products, need - count * size(products[at]), size, at + 1);
        if (rest) {
            const Cents cost = *rest + (count > 0 ? installed(site, products[at], count) : 0);
            if (!best || cost < *best) best = cost;
        }
        if (size(products[at]) <= 0 || count * size(products[at]) >= need) return best;
    }
}

/// Watts at the supplying side for a device of so many watts: IEEE 802.3 clauses 33 and 145, classes 1 to 8.
std::optional<double> supply_watts(double device_watts) {
    constexpr double device[] = {3.84, 6.49, 12.95, 25.5, 40, 51, 62, 71.3};
    constexpr double supply[] = {4, 7, 15.4, 30, 45, 60, 75, 90};
    for (int c = 0; c < 8; ++c) {
        if (device_watts <= device[c]) return supply[c];
    }
    return std::nullopt;
}

}  // namespace

std::vector<OwnWay> ways(const Scenario& site, int index) {
    const Segment& segment = site.segments[static_cast<std::size_t>(index)];
    std::vector<OwnWay> found;
    if (!segment.ban.empty()) return found;
    Cents charges = 0;
    for (const FixedCharge& charge : segment.charges)
        charges += charge.amount.minor();
    const auto add = [&](const OpeningMethod& method, int room) {
        const std::int64_t crew = std::llround(static_cast<double>(site.labour.groundworks_rate.thousandths()) *
                                               method.labour_hours_per_metre);
        const std::int64_t metre = crew + method.plant_per_metre.thousandths() +
                                   method.material_per_metre.thousandths() +
                                   method.reinstatement_per_metre.thousandths();
        found.push_back(
            {&method, room, rounded(metre, segment.length.millimetres(), 1'000'000) + method.set_up.minor() + charges});
    };
    for (const OpeningMethod& method : site.grounds[static_cast<std::size_t>(segment.ground)].methods)
        add(method, -1);
    if (segment.duct_room.value_or(0) > 0) add(site.existing_duct, *segment.duct_room);
    if (segment.pole_line) add(site.pole_line, -1);
    return found;
}

void Run::add(const Segment& segment, const OpeningMethod& method) {
    millimetres += segment.length.millimetres();
    pull_hours += segment.length.metres() * method.pull_hours_per_metre;
    if (method.duct_per_metre.thousandths() > 0) {
        duct[method.duct_per_metre.thousandths()] += segment.length.millimetres();
    }
}

std::int64_t with_slack(const Scenario& site, const Run& run) {
    const SlackRules& slack = site.rules.slack;
    const std::int64_t bare = run.millimetres +
                              2 * (slack.rise_per_end.millimetres() + slack.coil_per_end.millimetres()) +
                              run.handholes * slack.coil_per_handhole.millimetres();
    const std::int64_t whole = 100'000;
    return (bare * (whole + slack.ordering_allowance.thousandths()) + whole - 1) / whole;
}

std::optional<Cents> cable(const Scenario& site, int strands, int in_use, const Run& run) {
    const CableProduct* product = product_for(site, strands, in_use, run);
    if (product == nullptr) return std::nullopt;
    return cable_of(site, *product, in_use, run);
}

int joints(const Scenario& site, int strands, int in_use, const Run& run) {
    const CableProduct* product = product_for(site, strands, in_use, run);
    return product == nullptr ? 0 : joints_of(site, *product, run);
}

std::int64_t glass(const Scenario& site, int strands, int in_use, const Run& run) {
    const CableProduct* product = product_for(site, strands, in_use, run);
    if (product == nullptr || spliced(site)) return with_slack(site, run);
    return up_to_step(with_slack(site, run), product->length_step.millimetres());
}

int strands_of(const Scenario& site, int links) {
    return site.rules.strand_use == StrandUse::duplex ? 2 * links : links;
}

int trunk_strands(const Scenario& site, int in_use) {
    const auto share = [in_use](Percent percent) {
        return static_cast<int>((in_use * percent.thousandths() + 99'999) / 100'000);
    };
    return in_use + std::max(site.rules.spare.trunk_spare_least, share(site.rules.spare.trunk_spare)) +
           share(site.growth.headroom);
}

std::optional<Cents> link(const Scenario& site, BitRate rate, std::int64_t glass, int pairs, int splices) {
    const LossRules& loss = site.rules.loss;
    const double extra = pairs * loss.mated_pair_db + splices * loss.splice_db + loss.spare_margin_db;
    const auto fibre = [&](double wavelength) {
        const double per_km = wavelength >= 1530 ? loss.attenuation_1550_db_per_km : loss.attenuation_1310_db_per_km;
        return per_km * static_cast<double>(glass) / 1e6;
    };
    std::optional<Cents> optics;
    for (const OpticProduct& optic : site.catalogue.optics) {
        if (optic.rate < rate || optic.strand_use != site.rules.strand_use) continue;
        if (glass > optic.reach.millimetres() || glass < optic.least_length.millimetres()) continue;
        if (!arrives(optic.to_building, fibre(optic.to_building.wavelength_nm), extra)) continue;
        if (!arrives(optic.to_hub, fibre(optic.to_hub.wavelength_nm), extra)) continue;
        const Cents price = for_pieces(optic.price_per_end, 2);
        if (!optics || price < *optics) optics = price;
    }
    if (!optics) return std::nullopt;
    std::optional<Cents> cords;
    const int strands = strands_of(site, 1);
    for (const PatchCordProduct& cord : site.catalogue.patch_cords) {
        const Cents price = for_pieces(cord.price, 2);
        if (cord.strands == strands && (!cords || price < *cords)) cords = price;
    }
    return *optics + cords.value_or(0) +
           for_seconds(site.labour.installer_rate, site.labour.test_time.seconds() * strands);
}

/// Devices that find a port and their watts at one of the pieces.
static int devices_fed(const BuildingGearProduct& product, int count, double watts) {
    int fed = 0;
    for (int piece = 0; piece < count; ++piece) {
        const int joints = (piece > 0 ? 1 : 0) + (piece + 1 < count ? 1 : 0);
        fed +=
            std::min(std::max(0, product.copper_ports - joints), static_cast<int>(product.poe_budget_w / watts + 1e-9));
    }
    return fed;
}

std::optional<Cents> building_gear(const Scenario& site, const Building& building, int ports, BitRate rate) {
    int devices = 0;
    int fed = 0;
    double most_watts = 0;  // of one device: these sites feed all their devices alike
    for (const DeviceGroup& group : building.devices) {
        devices += group.count;
        if (group.watts <= 0) continue;
        const auto each = supply_watts(group.watts);
        if (!each) return std::nullopt;
        fed += group.count;
        most_watts = std::max(most_watts, *each);
    }
    const int copper = devices > 1 ? devices + site.rules.spare_copper_ports : devices;
    std::optional<Cents> best;
    for (const BuildingGearProduct& product : site.catalogue.building_gear) {
        if (product.kind == GearKind::media_converter && devices > 1) continue;
        if (product.optic_ports < ports || product.fastest_rate < rate) continue;
        for (int count = 1; count <= 64; ++count) {
            // Two ports go into each joint between two pieces.
            if (count * product.copper_ports - 2 * (count - 1) < copper) continue;
            if (fed > 0 && devices_fed(product, count, most_watts) < fed) continue;
            const Cents cost = installed(site, product, count);
            if (!best || cost < *best) best = cost;
            break;
        }
    }
    return best;
}

std::optional<Cents> hub_gear(const Scenario& site, int ports, BitRate rate) {
    int copper = -site.hub.free_copper_ports;
    for (const HubDevice& device : site.hub.devices)
        copper += device.count;
    std::map<std::pair<int, int>, std::optional<Cents>> known;
    // The cheapest way to have so many optic and copper ports more: one switch, and the rest of the need.
    const std::function<std::optional<Cents>(int, int)> least = [&](int optic_left, int copper_left) {
        optic_left = std::max(0, optic_left);
        copper_left = std::max(0, copper_left);
        if (optic_left == 0 && copper_left == 0) return std::optional<Cents>(0);
        if (const auto found = known.find({optic_left, copper_left}); found != known.end()) return found->second;
        std::optional<Cents> best;
        for (const HubGearProduct& product : site.catalogue.hub_gear) {
            const int optic = product.fastest_rate >= rate ? product.optic_ports : 0;
            const bool helps = (optic > 0 && optic_left > 0) || (product.copper_ports > 0 && copper_left > 0);
            if (!helps) continue;
            const auto rest = least(optic_left - optic, copper_left - product.copper_ports);
            if (!rest) continue;
            const Cents cost = *rest + installed(site, product, 1);
            if (!best || cost < *best) best = cost;
        }
        return known[{optic_left, copper_left}] = best;
    };
    return least(ports + site.hub.growth_ports - site.hub.free_optic_ports, copper);
}

std::optional<Cents> enclosures(const Scenario& site, int adapters) {
    return cheapest_pieces(site, site.catalogue.enclosures, std::max(adapters, 1),
                           [](const EnclosureProduct& product) { return product.adapters; });
}

Cents quoted(const Scenario& site, Cents direct) {
    const auto share = [](Cents amount, Percent percent) { return rounded(percent.thousandths(), amount, 100'000); };
    const Cents contingency = share(direct, site.rules.contingency);
    return direct + contingency + share(direct + contingency, site.rules.tax);
}

int links_of(const Building& building) {
    int links = 0;
    for (const LinkDemand& demand : building.links)
        links += demand.count;
    return links;
}

BitRate fastest(const Building& building) {
    BitRate rate;
    for (const LinkDemand& demand : building.links)
        rate = std::max(rate, demand.rate);
    return rate;
}

Cents for_time(UnitPrice price, std::int64_t seconds) {
    return for_seconds(price, seconds);
}

}  // namespace spadework::own
