#include "strands/trunk_run.hpp"

#include <map>

#include "rates/cable_rates.hpp"
#include "rates/opening_rates.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

double minor(UnitPrice price) {
    return static_cast<double>(price.thousandths()) / 1000.0;
}
double minor(Money money) {
    return static_cast<double>(money.minor());
}
double along(UnitPrice per_metre, Length length) {
    return minor(per_metre) * length.metres();
}

bool is_dug(const OpeningMethod& method) {
    return method.kind != MethodKind::existing_duct && method.kind != MethodKind::pole_line;
}

UnitPrice pulling(const OpeningMethod& method, const Labour& labour) {
    OpeningMethod without_duct = method;
    without_duct.duct_per_metre = UnitPrice();
    return passage_per_metre(without_duct, labour);
}

/// Opening and passing once, in minor units.
double cost_of(const Way& way, const Segment& segment, const Labour& labour) {
    return minor(way.opening) + along(passage_per_metre(*way.method, labour), segment.length);
}

/// The cheapest way of one more cable that no earlier cable can be in the way of; null when there is none.
const Way* cheapest_anew(const std::vector<Way>& ways, const Segment& segment, const Labour& labour) {
    const Way* best = nullptr;
    for (const Way& way : ways) {
        if (way.room >= 0) continue;
        if (best == nullptr || cost_of(way, segment, labour) < cost_of(*best, segment, labour)) best = &way;
    }
    return best;
}

TrunkStretch stretch_of(const Scenario& scenario, const TrunkPart& part) {
    const Segment& segment = scenario.segments[static_cast<std::size_t>(part.segment)];
    const std::vector<Way> ways = ways_of(scenario, part.segment);
    const Way& way = ways[static_cast<std::size_t>(part.way)];
    TrunkStretch stretch;
    stretch.ground = way.ground;
    stretch.length = segment.length;
    stretch.dug_now = is_dug(*way.method);
    stretch.room = stretch.dug_now ? 0 : way.room < 0 ? -1 : std::max(0, way.room - part.cables);
    stretch.duct_per_metre = stretch.dug_now ? way.method->duct_per_metre : UnitPrice();
    stretch.passage_per_metre = passage_per_metre(*way.method, scenario.labour);
    stretch.pulling_per_metre = pulling(*way.method, scenario.labour);
    const Way* anew = cheapest_anew(ways, segment, scenario.labour);
    if (stretch.room < 0 || anew == nullptr) return stretch;
    stretch.method = anew->method->id;
    stretch.opening_again = anew->opening;
    stretch.again_per_metre = passage_per_metre(*anew->method, scenario.labour);
    stretch.groundworks_per_metre = groundworks_per_metre(*anew->method, scenario.labour);
    return stretch;
}

/// The cheapest method of a ground for a metre that one cable goes through.
const OpeningMethod* cheapest_method(const Ground& ground, const Labour& labour) {
    const OpeningMethod* best = nullptr;
    const auto metre = [&](const OpeningMethod& method) {
        return groundworks_per_metre(method, labour) + passage_per_metre(method, labour);
    };
    for (const OpeningMethod& method : ground.methods) {
        if (best == nullptr || metre(method) < metre(*best)) best = &method;
    }
    return best;
}

/// The ground with most metres on the map, the earlier of equals; -1 where no segment may be used.
int commonest_ground(const Scenario& scenario) {
    std::map<int, Length> metres;
    for (const Segment& segment : scenario.segments) {
        if (segment.ban.empty()) metres[segment.ground] += segment.length;
    }
    int best = -1;
    for (const auto& [ground, length] : metres) {
        if (best < 0 || length > metres[best]) best = ground;
    }
    return best;
}

double price_of_cable(const Scenario& scenario, const TrunkRun& run, const CableProduct& cable, int strands) {
    if (!run.planned) return minor(cable.price_per_metre);
    const CableLengths lengths = cable_lengths(cable, run.length, run.handholes, scenario.rules);
    return along(cable.price_per_metre, lengths.ordered) + 2 * minor(end_work(cable, strands, scenario).total()) +
           lengths.joints * minor(joint_work(cable, scenario).total());
}

}  // namespace

TrunkRun trunk_run(const Scenario& scenario, PlaceIndex to, const std::vector<TrunkPart>& parts, int handholes) {
    TrunkRun run{true, scenario.places[static_cast<std::size_t>(to)].id, {}, handholes, {}};
    for (const TrunkPart& part : parts) {
        run.stretches.push_back(stretch_of(scenario, part));
        run.length += run.stretches.back().length;
    }
    return run;
}

TrunkRun metre_of_trunk(const Scenario& scenario) {
    TrunkRun run;
    run.length = Length::from_metres(1);
    const int ground = commonest_ground(scenario);
    if (ground < 0) return run;
    const Ground& common = scenario.grounds[static_cast<std::size_t>(ground)];
    const OpeningMethod* method = cheapest_method(common, scenario.labour);
    if (method == nullptr) return run;
    TrunkStretch stretch;
    stretch.ground = common.id;
    stretch.method = method->id;
    stretch.length = run.length;
    stretch.dug_now = true;
    stretch.duct_per_metre = method->duct_per_metre;
    stretch.passage_per_metre = passage_per_metre(*method, scenario.labour);
    stretch.pulling_per_metre = pulling(*method, scenario.labour);
    stretch.groundworks_per_metre = groundworks_per_metre(*method, scenario.labour);
    stretch.opening_again = amount(stretch.groundworks_per_metre, run.length);
    stretch.again_per_metre = stretch.passage_per_metre;
    run.stretches = {stretch};
    return run;
}

double price_of_trunk(const Scenario& scenario, const TrunkRun& run, const CableProduct& cable, int strands) {
    double price = price_of_cable(scenario, run, cable, strands);
    for (const TrunkStretch& stretch : run.stretches)
        price += along(stretch.passage_per_metre, stretch.length);
    return price;
}

double price_of_later_trunk(const Scenario& scenario, const TrunkRun& run, const CableProduct& cable, int before,
                            int spare_ducts) {
    double price = price_of_cable(scenario, run, cable, strands_per_link(scenario.rules.strand_use));
    if (run.planned) price += minor(scenario.labour.mobilisation);
    for (const TrunkStretch& stretch : run.stretches) {
        const int room = stretch.dug_now ? spare_ducts : stretch.room;
        if (room < 0 || before < room) {
            price += along(stretch.pulling_per_metre, stretch.length);
        } else {
            price += minor(stretch.opening_again) + along(stretch.again_per_metre, stretch.length);
        }
    }
    return price;
}

double price_of_spare_duct(const TrunkRun& run) {
    double price = 0;
    for (const TrunkStretch& stretch : run.stretches) {
        if (stretch.dug_now) price += along(stretch.duct_per_metre, stretch.length);
    }
    return price;
}

}  // namespace spadework
