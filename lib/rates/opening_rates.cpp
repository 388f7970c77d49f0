#include "rates/opening_rates.hpp"

#include <cmath>

namespace spadework {

namespace {

UnitPrice labour_per_metre(UnitPrice rate_per_hour, double hours_per_metre) {
    return UnitPrice::from_thousandths(
        std::llround(static_cast<double>(rate_per_hour.thousandths()) * hours_per_metre));
}

Money opening_cost(const OpeningMethod& method, const Segment& segment, const Labour& labour) {
    Money cost = amount(groundworks_per_metre(method, labour), segment.length) + method.set_up;
    for (const FixedCharge& charge : segment.charges)
        cost += charge.amount;
    return cost;
}

}  // namespace

UnitPrice groundworks_per_metre(const OpeningMethod& method, const Labour& labour) {
    return labour_per_metre(labour.groundworks_rate, method.labour_hours_per_metre) + method.plant_per_metre +
           method.material_per_metre + method.reinstatement_per_metre;
}

UnitPrice passage_per_metre(const OpeningMethod& method, const Labour& labour) {
    return labour_per_metre(labour.installer_rate, method.pull_hours_per_metre) + method.duct_per_metre;
}

std::vector<Way> ways_of(const Scenario& scenario, SegmentIndex index) {
    const Segment& segment = scenario.segments[static_cast<std::size_t>(index)];
    std::vector<Way> ways;
    if (!segment.ban.empty()) return ways;
    const Ground& ground = scenario.grounds[static_cast<std::size_t>(segment.ground)];
    const auto add = [&](const OpeningMethod& method, const std::string& name, int room) {
        ways.push_back({&method, name, room, opening_cost(method, segment, scenario.labour)});
    };
    for (const OpeningMethod& method : ground.methods)
        add(method, ground.id, -1);
    if (segment.duct_room && *segment.duct_room > 0) add(scenario.existing_duct, "existing duct", *segment.duct_room);
    if (segment.pole_line) add(scenario.pole_line, "pole line", -1);
    return ways;
}

}  // namespace spadework
