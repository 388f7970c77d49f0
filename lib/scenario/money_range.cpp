#include "scenario/money_range.hpp"

#include <algorithm>

namespace spadework {

namespace {

constexpr double most_minor_units = 1e17;

double minor(UnitPrice price) {
    return static_cast<double>(price.thousandths()) / 1000;
}

template <typename Products, typename Value>
double dearest(const Products& products, Value value) {
    double most = 0;
    for (const auto& product : products)
        most = std::max(most, static_cast<double>(value(product)));
    return most;
}

/// Opening a segment, and one cable through it, with the dearest of the given ways.
struct SegmentCost {
    double opening = 0;
    double a_cable = 0;
};

SegmentCost cost_of(const Segment& segment, const std::vector<OpeningMethod>& methods, const Labour& labour) {
    SegmentCost most;
    const double metres = segment.length.metres();
    for (const OpeningMethod& method : methods) {
        const double a_metre = method.labour_hours_per_metre * minor(labour.groundworks_rate) +
                               minor(method.plant_per_metre) + minor(method.material_per_metre) +
                               minor(method.reinstatement_per_metre);
        most.opening = std::max(most.opening, a_metre * metres + static_cast<double>(method.set_up.minor()));
        most.a_cable = std::max(
            most.a_cable,
            (method.pull_hours_per_metre * minor(labour.installer_rate) + minor(method.duct_per_metre)) * metres);
    }
    return most;
}

/// Dearest parts and work at the two ends of one strand's way and the gear behind it.
double cost_of_a_link(const Scenario& scenario) {
    const Catalogue& catalogue = scenario.catalogue;
    const double hour = minor(scenario.labour.installer_rate) + minor(scenario.labour.groundworks_rate) +
                        minor(catalogue.splicing.rate_per_hour);
    const double ends = dearest(catalogue.cables, [](const auto& c) { return minor(c.factory_end_price); }) +
                        dearest(catalogue.optics, [](const auto& o) { return minor(o.price_per_end); }) +
                        dearest(catalogue.attenuators, [](const auto& a) { return minor(a.price); }) +
                        dearest(catalogue.patch_cords, [](const auto& p) { return minor(p.price); });
    const double gear =
        dearest(catalogue.building_gear,
                [&](const auto& g) { return minor(g.price) + g.install_time.hours() * hour; }) +
        dearest(catalogue.hub_gear, [&](const auto& g) { return minor(g.price) + g.install_time.hours() * hour; });
    const double strands = dearest(catalogue.cables, [](const auto& c) { return c.strands; });
    const double a_strand = (scenario.labour.plug_time.hours() + scenario.labour.test_time.hours() +
                             catalogue.splicing.time_per_splice.hours() + catalogue.splicing.set_up_time.hours()) *
                                hour +
                            minor(catalogue.splicing.pigtail_price);
    return 4 * (ends + gear + strands * a_strand);
}

}  // namespace

bool totals_can_be_counted(const Scenario& scenario) {
    double links = static_cast<double>(scenario.rules.most_enclosures) + scenario.hub.growth_ports;
    for (const HubDevice& device : scenario.hub.devices)
        links += device.count;
    for (const Building& building : scenario.buildings) {
        links += scenario.rules.spare_copper_ports;
        for (const LinkDemand& link : building.links)
            links += link.count;
        for (const DeviceGroup& device : building.devices)
            links += device.count;
    }
    const double cable_a_metre =
        dearest(scenario.catalogue.cables, [](const auto& c) { return minor(c.price_per_metre); });
    double metres = 0;
    double total = static_cast<double>(scenario.labour.mobilisation.minor());
    for (const Segment& segment : scenario.segments) {
        std::vector<OpeningMethod> methods = scenario.grounds[static_cast<std::size_t>(segment.ground)].methods;
        methods.push_back(scenario.existing_duct);
        methods.push_back(scenario.pole_line);
        const SegmentCost cost = cost_of(segment, methods, scenario.labour);
        total += cost.opening + links * cost.a_cable;
        for (const FixedCharge& charge : segment.charges)
            total += static_cast<double>(charge.amount.minor());
        metres += segment.length.metres();
    }
    const double longest_step =
        dearest(scenario.catalogue.cables, [](const auto& c) { return c.length_step.metres(); });
    total += links * (metres + longest_step) * cable_a_metre * (1 + scenario.rules.slack.ordering_allowance.fraction());
    total += links * cost_of_a_link(scenario);
    const double enclosure = dearest(scenario.catalogue.enclosures, [&](const auto& e) {
        return minor(e.price) + e.install_time.hours() * minor(scenario.labour.installer_rate);
    });
    const double place = dearest(scenario.places, [](const auto& p) { return p.enclosure_extra.minor(); });
    total += scenario.rules.most_enclosures * (enclosure + place);
    total *= (1 + scenario.rules.contingency.fraction()) * (1 + scenario.rules.tax.fraction());
    return total < most_minor_units;
}

}  // namespace spadework
