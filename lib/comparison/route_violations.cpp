#include <cmath>
#include <map>
#include <set>

#include <fmt/format.h>

#include "comparison/verification_parts.hpp"

namespace spadework::verification {

namespace {

struct Walk {
    bool joined = true;
    PlaceIndex end = 0;
    std::int64_t millimetres = 0;
    int handholes = 0;  ///< Passed between the ends.
};

Walk walk(const Scenario& scenario, const PlannedCable& cable) {
    Walk walk{true, cable.from, 0, 0};
    for (std::size_t i = 0; i < cable.steps.size(); ++i) {
        const Segment& segment = item(scenario.segments, cable.steps[i].segment);
        if (i > 0 && item(scenario.places, walk.end).kind == PlaceKind::handhole) ++walk.handholes;
        if (segment.from == walk.end) {
            walk.end = segment.to;
        } else if (segment.to == walk.end) {
            walk.end = segment.from;
        } else {
            walk.joined = false;
            return walk;
        }
        walk.millimetres += segment.length.millimetres();
    }
    return walk;
}

std::int64_t rounded_up(std::int64_t value, std::int64_t step) {
    return step <= 0 ? value : (value + step - 1) / step * step;
}

/// A cable, or all parts of a trunk that was cut, as it was ordered.
struct Whole {
    std::string id;
    bool joined = true;
    PlaceIndex end = 0;
    std::int64_t millimetres = 0;
    std::int64_t with_slack = 0;
    std::int64_t ordered = 0;
    int handholes = 0;
    int joints = 0;
};

void add_part(const Scenario& scenario, const PlannedCable& cable, bool first, Whole& whole) {
    const Walk walked = walk(scenario, cable);
    whole.joined = whole.joined && walked.joined && walked.end == cable.to && (first || cable.from == whole.end);
    whole.end = cable.to;
    whole.millimetres += walked.millimetres;
    whole.with_slack += cable.lengths.with_slack.millimetres();
    whole.ordered += cable.lengths.ordered.millimetres();
    whole.handholes += walked.handholes;
    if (!first && item(scenario.places, cable.from).kind == PlaceKind::handhole) ++whole.handholes;
    whole.joints += cable.lengths.joints;
}

void check_walk(const Scenario& scenario, const PlannedCable& cable, Sentences& found) {
    const Walk walked = walk(scenario, cable);
    if (!walked.joined || walked.end != cable.to) {
        found.push_back(fmt::format("The segments of cable {} do not lead from {} to {}.", cable.id,
                                    item(scenario.places, cable.from).id, item(scenario.places, cable.to).id));
        return;
    }
    if (walked.millimetres != cable.lengths.route.millimetres()) {
        found.push_back(fmt::format("Cable {} is {} mm long on the map, not {} mm.", cable.id, walked.millimetres,
                                    cable.lengths.route.millimetres()));
    }
    const CableLengths& lengths = cable.lengths;
    if (lengths.with_slack < lengths.route || lengths.ordered < lengths.with_slack || lengths.joints < 0) {
        found.push_back(fmt::format("The lengths of cable {} do not grow from route to order.", cable.id));
    }
}

void check_slack(const Scenario& scenario, const Whole& whole, Sentences& found) {
    const SlackRules& slack = scenario.rules.slack;
    const std::int64_t beyond = 2 * (slack.rise_per_end + slack.coil_per_end).millimetres() +
                                slack.coil_per_handhole.millimetres() * whole.handholes;
    const std::int64_t exact = (whole.millimetres + beyond) * (100000 + slack.ordering_allowance.thousandths());
    const std::int64_t with_slack = rounded_up(exact, 100000) / 100000;
    if (with_slack != whole.with_slack) {
        found.push_back(
            fmt::format("Cable {} needs {} mm with slack, not {} mm.", whole.id, with_slack, whole.with_slack));
    }
}

void check_order(const Scenario& scenario, const CableProduct& product, const Whole& whole, Sentences& found) {
    const bool factory = scenario.rules.termination == Termination::factory;
    const std::int64_t step = factory ? product.length_step.millimetres() : 1000;
    const std::int64_t ordered = rounded_up(whole.with_slack, step);
    if (ordered != whole.ordered) {
        found.push_back(fmt::format("Cable {} must be ordered as {} mm, not {} mm.", whole.id, ordered, whole.ordered));
    }
    const std::int64_t longest = product.longest.millimetres();
    std::int64_t pieces = 1;
    while (longest > 0 && pieces * longest < ordered && pieces <= ordered)
        ++pieces;
    if (pieces - 1 != whole.joints) {
        found.push_back(fmt::format("Cable {} needs {} joints, not {}.", whole.id, pieces - 1, whole.joints));
    }
}

/// Whole cables, each with its parts in order from the hub.
std::vector<std::vector<int>> whole_cables(const Plan& plan) {
    std::vector<std::vector<int>> whole;
    std::map<int, std::size_t> whole_of;
    for (std::size_t c = 0; c < plan.cables.size(); ++c) {
        const auto& before = plan.cables[c].spliced_to;
        const std::size_t at = before ? whole_of.at(*before) : whole.size();
        if (!before) whole.emplace_back();
        whole_of[static_cast<int>(c)] = at;
        whole[at].push_back(static_cast<int>(c));
    }
    return whole;
}

void check_whole(const Scenario& scenario, const Plan& plan, const std::vector<int>& parts, Sentences& found) {
    Whole whole;
    whole.id = item(plan.cables, parts.back()).id;
    const int product = item(plan.cables, parts.front()).product;
    for (const int c : parts) {
        const PlannedCable& cable = item(plan.cables, c);
        add_part(scenario, cable, c == parts.front(), whole);
        const bool trunk = parts.size() == 1 || cable.role == CableRole::trunk;
        if (trunk && cable.product == product) continue;
        found.push_back(fmt::format("Cable {} is spliced to one that is no part of its trunk.", cable.id));
    }
    if (!whole.joined) {
        if (parts.size() > 1) found.push_back(fmt::format("The parts of cable {} do not meet end to end.", whole.id));
        return;
    }
    check_slack(scenario, whole, found);
    check_order(scenario, item(scenario.catalogue.cables, product), whole, found);
}

void check_no_repeats(const Scenario& scenario, const PlannedCable& cable, Sentences& found) {
    std::set<SegmentIndex> passed;
    for (const Step& step : cable.steps) {
        if (passed.insert(step.segment).second) continue;
        found.push_back(
            fmt::format("Cable {} passes segment {} twice.", cable.id, item(scenario.segments, step.segment).id));
    }
}

void check_trenches(const Scenario& scenario, const Plan& plan, Sentences& found) {
    std::map<Step, int> cables;
    for (const PlannedCable& cable : plan.cables) {
        for (const Step& step : cable.steps)
            ++cables[step];
    }
    std::set<Step> opened;
    for (const Step& step : plan.trenches) {
        const std::string& id = item(scenario.segments, step.segment).id;
        if (!opened.empty() && !(*opened.rbegin() < step)) {
            found.push_back(fmt::format("Segment {} is opened twice or out of order.", id));
        }
        opened.insert(step);
        if (!cables.contains(step)) found.push_back(fmt::format("Segment {} is opened for no cable.", id));
    }
    for (const auto& [step, count] : cables) {
        const std::string& id = item(scenario.segments, step.segment).id;
        if (!opened.contains(step)) found.push_back(fmt::format("A cable passes segment {}, which is not opened.", id));
        const int room = opened_way(scenario, step).room;
        if (room >= 0 && count > room) {
            found.push_back(fmt::format("The duct of segment {} has room for {} cables, not {}.", id, room, count));
        }
    }
}

/// Where the inside of an existing duct is known, all cables in it keep to the share for their number.
void check_fill(const Scenario& scenario, const Plan& plan, Sentences& found) {
    constexpr double rounding = 1e-6;
    std::map<Step, std::pair<int, double>> in_ducts;  // cables and the sum of their squared diameters
    for (const PlannedCable& cable : plan.cables) {
        const double diameter = item(scenario.catalogue.cables, cable.product).diameter_mm;
        for (const Step& step : cable.steps) {
            if (!item(scenario.segments, step.segment).duct_bore || opened_way(scenario, step).room < 0) continue;
            auto& [count, squares] = in_ducts[step];
            ++count;
            squares += diameter * diameter;
        }
    }
    const FillRules& rules = scenario.rules.duct_fill;
    for (const auto& [step, planned] : in_ducts) {
        const Segment& segment = item(scenario.segments, step.segment);
        auto [count, squares] = planned;
        for (const double diameter : segment.duct_bore->cable_diameters_mm) {
            ++count;
            squares += diameter * diameter;
        }
        const Percent share = count == 1 ? rules.one_cable : count == 2 ? rules.two_cables : rules.more_cables;
        const double inside = segment.duct_bore->inner_diameter_mm * segment.duct_bore->inner_diameter_mm;
        if (squares <= inside * share.fraction() * (1 + rounding)) continue;
        found.push_back(fmt::format("The {} cables in the duct of segment {} fill more of it than {} %.", count,
                                    segment.id, share.percent()));
    }
}

}  // namespace

Sentences route_violations(const Scenario& scenario, const Plan& plan) {
    Sentences found;
    std::set<std::string> ids;
    for (const PlannedCable& cable : plan.cables) {
        if (!ids.insert(cable.id).second) found.push_back(fmt::format("Two cables are called {}.", cable.id));
        check_walk(scenario, cable, found);
        check_no_repeats(scenario, cable, found);
    }
    for (const std::vector<int>& parts : whole_cables(plan))
        check_whole(scenario, plan, parts, found);
    check_trenches(scenario, plan, found);
    check_fill(scenario, plan, found);
    return found;
}

}  // namespace spadework::verification
