#include "checks/cautions.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "rates/opening_rates.hpp"

namespace spadework {

namespace {

/// What in the plan can hurt someone.
struct Hazards {
    std::set<MethodKind> methods;
    Length deepest;
    bool crossing = false;
    bool poe = false;
    bool powered_gear = false;
};

bool digs(MethodKind kind) {
    return kind != MethodKind::pole_line && kind != MethodKind::existing_duct;
}

Hazards hazards_of(const Scenario& scenario, const Plan& plan) {
    Hazards hazards;
    for (const Step& step : plan.trenches) {
        const OpeningMethod& method = *ways_of(scenario, step.segment)[static_cast<std::size_t>(step.way)].method;
        hazards.methods.insert(method.kind);
        // A bore has no open trench along it; its pits are as deep.
        if (digs(method.kind)) hazards.deepest = std::max(hazards.deepest, method.depth);
        const auto& charges = scenario.segments[static_cast<std::size_t>(step.segment)].charges;
        hazards.crossing =
            hazards.crossing || std::any_of(charges.begin(), charges.end(), [](const FixedCharge& charge) {
                return charge.category == ChargeCategory::crossing;
            });
    }
    for (const Building& building : scenario.buildings) {
        for (const DeviceGroup& group : building.devices)
            hazards.poe = hazards.poe || group.watts > 0;
    }
    hazards.powered_gear = !plan.building_gear.empty();
    return hazards;
}

bool any_digging(const Hazards& hazards) {
    return std::any_of(hazards.methods.begin(), hazards.methods.end(), digs);
}

/// What the depth itself asks for, from 4 ft, from 5 ft and beyond 20 ft (29 CFR 1926.651(c)(2), 1926.652(a)(1), and
/// Subpart P).
std::string asked_at(Length depth) {
    std::string asked;
    if (depth >= Length::from_feet(4)) asked += " This one needs a way out.";
    if (depth >= Length::from_feet(5)) asked += " This one needs a protective system.";
    if (depth > Length::from_feet(20)) {
        asked += " Beyond 6.10 m a registered professional engineer designs the protection.";
    }
    return asked;
}

Caution trench_protection(Length deepest) {
    return {"trench-protection",
            fmt::format("The deepest opening planned here is {:.2f} m. From 1.22 m a trench needs a way out within "
                        "7.6 m, from 1.52 m it needs a protective system except in stable rock, and at any depth a "
                        "competent person inspects it; keep spoil 0.61 m from the edge.",
                        deepest.metres()) +
                asked_at(deepest),
            "29 CFR 1926.651(c)(2), 1926.652(a)(1), 1926.651(j)(2)"};
}

void add_digging(const Hazards& hazards, std::vector<Caution>& list) {
    if (!any_digging(hazards)) return;
    list.push_back(
        {"locate-services",
         "Have every buried service located and marked before digging, with the notice the local one-call rule "
         "asks for (48 hours in the source; two to three working days in many places), and dig by hand inside "
         "the tolerance zone around each mark.",
         "MIL-HDBK-1012/3 (48 hours); APWA guide: facility width plus 0.5 m each side where the law is silent"});
    list.push_back(trench_protection(hazards.deepest));
}

void add_special_methods(const Hazards& hazards, std::vector<Caution>& list) {
    if (hazards.methods.contains(MethodKind::bore)) {
        list.push_back({"bore",
                        "Boring is for a qualified crew: expose crossing services before the head passes them and keep "
                        "watch on its depth and line.",
                        "common practice, no published source"});
    }
    if (hazards.methods.contains(MethodKind::pole_line)) {
        list.push_back(
            {"pole-work",
             "Work on poles is for trained climbers or a lift, with the pole owner's consent, clear of power "
             "conductors and after the pole has been tested.",
             "common practice, no published source"});
    }
    if (hazards.crossing) {
        list.push_back(
            {"traffic",
             "Crossings need the road owner's permit and traffic control by qualified people for as long as they "
             "are open.",
             "common practice, no published source"});
    }
}

void add_light_and_power(const Hazards& hazards, std::vector<Caution>& list) {
    list.push_back(
        {"laser-light",
         "Never look into a fibre end or an optic's port; treat every strand as lit until it is measured dark. "
         "Ends that anyone can reach stay capped and at hazard level 1, 1M, 2 or 2M.",
         "IEC 60825-2 as summarised by the Finnish radiation authority (STUK)"});
    if (hazards.poe) {
        list.push_back(
            {"copper-and-surge",
             "Copper from the gear to outdoor devices brings surges in: bond and protect it as the local code "
             "asks, keep each run within 100 m, and give metal parts of cables and enclosures a bond to earth.",
             "100 m channel: ANSI/TIA-568.2-D (value from memory); bonding: common practice, no published source"});
    }
    if (hazards.powered_gear) {
        list.push_back({"mains-power", "Mains power for the gear is connected by a licensed electrician.",
                        "common practice, no published source"});
    }
}

}  // namespace

std::vector<Caution> cautions(const Scenario& scenario, const Plan& plan) {
    const Hazards hazards = hazards_of(scenario, plan);
    std::vector<Caution> list;
    add_digging(hazards, list);
    add_special_methods(hazards, list);
    add_light_and_power(hazards, list);
    list.push_back(
        {"planning-aid",
         "This plan is a planning aid. Local codes, the owner's rules and licensed practice decide; depths and "
         "distances here are the site file's and the sources', not law.",
         "common practice, no published source"});
    return list;
}

}  // namespace spadework
