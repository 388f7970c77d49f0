#include "certificate/link_figures.hpp"

#include <algorithm>

#include "rates/cable_rates.hpp"
#include "rates/cord_rates.hpp"
#include "strands/strand_need.hpp"

namespace spadework::certificate {

namespace {

/// Least price of both ends' optics for a link over at least so much glass; nothing where no optic reaches.
std::optional<Money> least_optics(const Scenario& scenario, BitRate rate, std::int64_t millimetres) {
    std::optional<UnitPrice> price;
    for (const OpticProduct& optic : scenario.catalogue.optics) {
        const bool fits = optic.rate >= rate && optic.strand_use == scenario.rules.strand_use &&
                          optic.reach.millimetres() >= millimetres;
        if (fits && (!price || optic.price_per_end < *price)) price = optic.price_per_end;
    }
    if (!price) return std::nullopt;
    return amount(*price, std::int64_t{2});
}

}  // namespace

BitRate fastest_rate(const Scenario& scenario) {
    BitRate fastest;
    for (const Building& building : scenario.buildings) {
        for (const LinkDemand& demand : building.links)
            fastest = std::max(fastest, demand.rate);
    }
    return fastest;
}

std::optional<Money> least_link(const Scenario& scenario, BitRate rate, std::int64_t millimetres) {
    const auto optics = least_optics(scenario, rate, millimetres);
    if (!optics) return std::nullopt;
    const int strands = strands_per_link(scenario.rules.strand_use);
    Money cost = *optics + test_work(strands, scenario.labour).amount;
    if (const auto cord = cheapest_cord(scenario, strands)) {
        cost += amount(scenario.catalogue.patch_cords[static_cast<std::size_t>(*cord)].price, std::int64_t{2});
    }
    return cost;
}

}  // namespace spadework::certificate
