#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "comparison/verification_parts.hpp"

namespace spadework::verification {

namespace {

int rounded_up_share(int count, Percent share) {
    const std::int64_t exact = std::int64_t{count} * share.thousandths();
    return static_cast<int>(exact / 100000 + (exact % 100000 > 0 ? 1 : 0));
}

/// Strands of the links that pass each cable.
std::vector<int> strands_lit(const Plan& plan) {
    std::vector<int> lit(plan.cables.size(), 0);
    for (const PlannedLink& link : plan.links) {
        for (const int cable : link.cables)
            lit[static_cast<std::size_t>(cable)] += link.strands;
    }
    return lit;
}

void check_cables(const Scenario& scenario, const Plan& plan, Sentences& found) {
    const std::vector<int> lit = strands_lit(plan);
    for (std::size_t i = 0; i < plan.cables.size(); ++i) {
        const PlannedCable& cable = plan.cables[i];
        const int laid = item(scenario.catalogue.cables, cable.product).strands;
        if (cable.need.in_use != lit[i]) {
            found.push_back(
                fmt::format("Links use {} strands of cable {}, not {}.", lit[i], cable.id, cable.need.in_use));
        }
        if (cable.need.in_use < 0 || cable.need.spare < 0 || cable.need.headroom < 0) {
            found.push_back(fmt::format("Cable {} has a negative number of strands.", cable.id));
        }
        if (cable.need.total() > laid) {
            found.push_back(fmt::format("Cable {} has {} strands and needs {}.", cable.id, laid, cable.need.total()));
        }
    }
}

/// An extension may leave a cable dark; a plan made anew has no use for one, nor for light that nobody gets.
std::string for_no_building(const PlannedCable& cable) {
    if (cable.need.in_use == 0) return fmt::format("Cable {} lies dark: no building has it.", cable.id);
    return fmt::format("Cable {} has {} strands in use for no building.", cable.id, cable.need.in_use);
}

/// Spares of every building's own cables together, those that close a ring apart.
void check_building_spares(const Scenario& scenario, const Plan& plan, Sentences& found) {
    std::map<std::pair<BuildingIndex, CableRole>, int> spare;
    for (const PlannedCable& cable : plan.cables) {
        if (cable.role == CableRole::trunk) continue;
        if (!cable.building) {
            found.push_back(for_no_building(cable));
            continue;
        }
        spare[{*cable.building, cable.role}] += cable.need.spare;
    }
    for (const auto& [cables, strands] : spare) {
        if (strands >= scenario.rules.spare.drop_spare_least) continue;
        found.push_back(fmt::format("The cables to building {} have {} spare strands, fewer than {}.",
                                    item(scenario.buildings, cables.first).id, strands,
                                    scenario.rules.spare.drop_spare_least));
    }
}

/// What of a trunk is spliced through to the next part where it was cut; nothing elsewhere.
StrandNeed spliced_through(const Plan& plan, int trunk) {
    for (const PlannedCable& cable : plan.cables) {
        if (cable.spliced_to == trunk) return cable.need;
    }
    return {};
}

void check_enclosure_need(const Scenario& scenario, const Plan& plan, const PlannedEnclosure& enclosure,
                          Sentences& found) {
    const std::string& id = item(scenario.places, enclosure.place).id;
    StrandNeed sum;
    int ending = 0;
    int ending_in_use = 0;
    for (const int trunk : enclosure.trunks) {
        const StrandNeed& need = item(plan.cables, trunk).need;
        const StrandNeed through = spliced_through(plan, trunk);
        sum.in_use += need.in_use;
        sum.spare += need.spare;
        sum.headroom += need.headroom;
        ending += need.total() - through.total();
        ending_in_use += need.in_use - through.in_use;
        if (through.in_use > need.in_use || through.spare > need.spare || through.headroom > need.headroom) {
            found.push_back(
                fmt::format("More strands are spliced to {} than it has for them.", item(plan.cables, trunk).id));
        }
    }
    if (ending_in_use != enclosure.need.in_use || ending != enclosure.need.total()) {
        found.push_back(
            fmt::format("The trunks to the enclosure at {} end {} strands ({} in use) there, its need is {} ({}).", id,
                        ending, ending_in_use, enclosure.need.total(), enclosure.need.in_use));
    }
    const SpareRules& rules = scenario.rules.spare;
    const int spare = std::max(rules.trunk_spare_least, rounded_up_share(sum.in_use, rules.trunk_spare));
    const int headroom = rounded_up_share(sum.in_use, scenario.growth.headroom);
    if (sum.spare < spare || sum.headroom < headroom) {
        found.push_back(
            fmt::format("The trunks to the enclosure at {} hold {} spare strands and {} for growth, not {} and {}.", id,
                        sum.spare, sum.headroom, spare, headroom));
    }
    int adapters = 0;
    for (const Pieces& pieces : enclosure.products)
        adapters += item(scenario.catalogue.enclosures, pieces.product).adapters * pieces.count;
    if (adapters < enclosure.need.total()) {
        found.push_back(
            fmt::format("The enclosure at {} has {} adapters and needs {}.", id, adapters, enclosure.need.total()));
    }
}

void check_enclosure_place(const Scenario& scenario, const PlannedEnclosure& enclosure, Sentences& found) {
    const Place& place = item(scenario.places, enclosure.place);
    if (!place.enclosure_allowed) found.push_back(fmt::format("No enclosure may stand at {}.", place.id));
    if (enclosure.serves.empty()) found.push_back(fmt::format("The enclosure at {} serves no building.", place.id));
    if (enclosure.trunks.empty()) found.push_back(fmt::format("No trunk leads to the enclosure at {}.", place.id));
}

/// At the hub, or where the part before it ends in an enclosure and nothing else is spliced to that part.
bool begins_rightly(const Scenario& scenario, const Plan& plan, const PlannedCable& cable) {
    if (!cable.spliced_to) return cable.from == scenario.hub.place;
    const auto to_the_same = std::count_if(plan.cables.begin(), plan.cables.end(), [&](const PlannedCable& other) {
        return other.spliced_to == cable.spliced_to;
    });
    const PlannedCable& before = item(plan.cables, *cable.spliced_to);
    return to_the_same == 1 && before.role == CableRole::trunk && before.to == cable.from && before.enclosure;
}

void check_trunks(const Scenario& scenario, const Plan& plan, Sentences& found) {
    std::map<int, int> listed;
    for (std::size_t e = 0; e < plan.enclosures.size(); ++e) {
        for (const int trunk : plan.enclosures[e].trunks) {
            const PlannedCable& cable = item(plan.cables, trunk);
            ++listed[trunk];
            if (cable.role == CableRole::trunk && cable.enclosure == static_cast<int>(e) &&
                cable.to == plan.enclosures[e].place && begins_rightly(scenario, plan, cable)) {
                continue;
            }
            found.push_back(fmt::format("Cable {} is not a trunk from the hub to the enclosure at {}.", cable.id,
                                        item(scenario.places, plan.enclosures[e].place).id));
        }
    }
    for (std::size_t i = 0; i < plan.cables.size(); ++i) {
        if (plan.cables[i].role == CableRole::trunk && listed[static_cast<int>(i)] != 1) {
            found.push_back(fmt::format("Trunk {} does not end in one enclosure.", plan.cables[i].id));
        }
    }
}

void check_counts(const Scenario& scenario, const Plan& plan, Sentences& found) {
    std::set<PlaceIndex> places;
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        if (places.insert(enclosure.place).second) continue;
        found.push_back(fmt::format("Two enclosures stand at {}.", item(scenario.places, enclosure.place).id));
    }
    const auto count = static_cast<int>(plan.enclosures.size());
    const bool none = plan.layout == LayoutKind::home_runs || plan.layout == LayoutKind::daisy_chain ||
                      plan.layout == LayoutKind::ring;
    if (none && count > 0) found.emplace_back("A layout without enclosures has one.");
    if (count > scenario.rules.most_enclosures) {
        found.push_back(fmt::format("The plan has {} enclosures, more than the {} allowed.", count,
                                    scenario.rules.most_enclosures));
    }
    if (plan.layout == LayoutKind::trunk_one && count != 1) {
        found.push_back(fmt::format("A trunk layout with one enclosure has {}.", count));
    }
}

void check_who_is_served(const Scenario& scenario, const Plan& plan, Sentences& found) {
    std::map<BuildingIndex, std::set<int>> drops;
    for (const PlannedCable& cable : plan.cables) {
        if (cable.role == CableRole::drop && cable.building)
            drops[*cable.building].insert(cable.enclosure.value_or(-1));
    }
    std::map<BuildingIndex, std::set<int>> served;
    for (std::size_t e = 0; e < plan.enclosures.size(); ++e) {
        for (const BuildingIndex building : plan.enclosures[e].serves)
            served[building].insert(static_cast<int>(e));
        if (!std::is_sorted(plan.enclosures[e].serves.begin(), plan.enclosures[e].serves.end())) {
            found.push_back(fmt::format("The buildings served at {} are out of order.",
                                        item(scenario.places, plan.enclosures[e].place).id));
        }
    }
    if (drops != served) found.emplace_back("The drops do not lead to the buildings that the enclosures serve.");
    for (const auto& [building, enclosures] : served) {
        if (enclosures.size() == 1) continue;
        found.push_back(fmt::format("Building {} is served by two enclosures.", item(scenario.buildings, building).id));
    }
}

}  // namespace

Sentences strand_violations(const Scenario& scenario, const Plan& plan) {
    Sentences found;
    check_cables(scenario, plan, found);
    check_building_spares(scenario, plan, found);
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        check_enclosure_place(scenario, enclosure, found);
        check_enclosure_need(scenario, plan, enclosure, found);
    }
    check_trunks(scenario, plan, found);
    check_counts(scenario, plan, found);
    check_who_is_served(scenario, plan, found);
    return found;
}

}  // namespace spadework::verification
