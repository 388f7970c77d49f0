#include "sheets/termination_choice.hpp"

#include "rates/cable_rates.hpp"
#include "rates/link_loss.hpp"

namespace spadework {

namespace {

int handholes_passed(const Scenario& scenario, const PlannedCable& cable) {
    int handholes = 0;
    PlaceIndex at = cable.from;
    for (std::size_t s = 0; s + 1 < cable.steps.size(); ++s) {
        const Segment& segment = scenario.segments[static_cast<std::size_t>(cable.steps[s].segment)];
        at = segment.from == at ? segment.to : segment.from;
        if (scenario.places[static_cast<std::size_t>(at)].kind == PlaceKind::handhole) ++handholes;
    }
    return handholes;
}

/// A cable's lengths under these rules.
CableLengths lengths_of(const Scenario& site, const PlannedCable& cable) {
    const CableProduct& product = site.catalogue.cables[static_cast<std::size_t>(cable.product)];
    return cable_lengths(product, cable.lengths.route, handholes_passed(site, cable), site.rules);
}

TerminationCost cost_of(const Scenario& site, const PlannedCable& cable) {
    const CableProduct& product = site.catalogue.cables[static_cast<std::size_t>(cable.product)];
    const CableLengths lengths = lengths_of(site, cable);
    const EndWork end = end_work(product, cable.need.in_use, site);
    TerminationCost cost;
    cost.cost =
        amount(product.price_per_metre, lengths.ordered) + end.material + end.material + amount(end.rate, end.time * 2);
    cost.time = end.time * 2;
    if (lengths.joints > 0) {
        const EndWork joint = joint_work(product, site);
        cost.cost += amount(joint.rate, joint.time * lengths.joints);
        cost.time += joint.time * lengths.joints;
    }
    return cost;
}

void add(TerminationCost& sum, const TerminationCost& cost) {
    sum.cost += cost.cost;
    sum.time += cost.time;
}

/// Buildings whose optics would not carry the link under these rules.
std::vector<std::string> links_that_fail(const Scenario& site, const Plan& plan) {
    std::vector<std::string> fail;
    for (const PlannedLink& link : plan.links) {
        GlassPath path{Length(), link.mated_pairs, 0};
        for (const int c : link.cables) {
            const CableLengths lengths = lengths_of(site, plan.cables[static_cast<std::size_t>(c)]);
            path.glass += glass_of(lengths, site.rules);
            path.splices += splices_in(lengths, site.rules);
        }
        const OpticProduct& optic = site.catalogue.optics[static_cast<std::size_t>(link.optic)];
        const Attenuation attenuation =
            attenuation_of(site.catalogue, optic, link.attenuator_at_start, link.attenuator_at_end);
        if (carries(optic, path, site.rules.loss, attenuation)) continue;
        fail.push_back(site.buildings[static_cast<std::size_t>(link.building)].id);
    }
    return fail;
}

Scenario with(const Scenario& scenario, Termination termination) {
    Scenario site = scenario;
    site.rules.termination = termination;
    return site;
}

}  // namespace

TerminationChoice termination_choice(const Scenario& scenario, const Plan& plan) {
    const Scenario factory = with(scenario, Termination::factory);
    const Scenario spliced = with(scenario, Termination::spliced);
    TerminationChoice choice;
    for (std::size_t c = 0; c < plan.cables.size(); ++c) {
        const PlannedCable& cable = plan.cables[c];
        choice.cables.push_back({static_cast<int>(c), cost_of(factory, cable), cost_of(spliced, cable)});
        add(choice.factory, choice.cables.back().factory);
        add(choice.spliced, choice.cables.back().spliced);
        choice.strand_ends += 2 * cable.need.in_use;
    }
    choice.factory_fails = links_that_fail(factory, plan);
    choice.spliced_fails = links_that_fail(spliced, plan);
    return choice;
}

}  // namespace spadework
