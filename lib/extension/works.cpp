#include "extension/works.hpp"

#include <algorithm>

#include "layout/cut_trunk.hpp"
#include "rates/opening_rates.hpp"

namespace spadework {

namespace {

std::vector<int> dark_strands(const Scenario& scenario, const Plan& built) {
    std::vector<int> dark;
    for (const PlannedCable& cable : built.cables)
        dark.push_back(scenario.catalogue.cables[static_cast<std::size_t>(cable.product)].strands);
    for (const PlannedLink& link : built.links) {
        for (const int c : link.cables)
            dark[static_cast<std::size_t>(c)] -= link.strands;
    }
    // Strands of a part behind a cut can be lit from the hub only where they can in the parts before it and do not end
    // there. Parts come behind those they are spliced to.
    for (std::size_t c = 0; c < built.cables.size(); ++c) {
        const auto& before = built.cables[c].spliced_to;
        if (!before) continue;
        const StrandNeed ended = strands_ending(built, *before);
        const int through = dark[static_cast<std::size_t>(*before)] - ended.spare - ended.headroom;
        dark[c] = std::max(0, std::min(dark[c], through));
    }
    return dark;
}

int adapters_of(const Scenario& scenario, const PlannedEnclosure& enclosure) {
    int adapters = 0;
    for (const Pieces& pieces : enclosure.products)
        adapters += pieces.count * scenario.catalogue.enclosures[static_cast<std::size_t>(pieces.product)].adapters;
    return adapters;
}

/// Ports left at the hub. Those in use are taken to sit in the slowest switches as far as they fit there.
int free_hub_ports(const Scenario& scenario, const Plan& built, BitRate rate) {
    int slow = 0;
    int fast = scenario.hub.free_optic_ports;
    for (const Pieces& pieces : built.hub_gear) {
        const HubGearProduct& product = scenario.catalogue.hub_gear[static_cast<std::size_t>(pieces.product)];
        (product.fastest_rate < rate ? slow : fast) += pieces.count * product.optic_ports;
    }
    const int on_fast = std::max(0, built.hub_ports - slow);
    return std::max(0, fast - on_fast);
}

bool needs_no_digging(const Way& way) {
    return way.method->kind == MethodKind::existing_duct || way.method->kind == MethodKind::pole_line;
}

}  // namespace

BuiltWorks works_of(const Scenario& scenario, const Plan& built, BitRate rate) {
    BuiltWorks works;
    for (const PlannedCable& cable : built.cables) {
        for (const Step& step : cable.steps)
            ++works.cables[step];
    }
    works.dark_strands = dark_strands(scenario, built);
    for (const PlannedEnclosure& enclosure : built.enclosures)
        works.free_adapters.push_back(adapters_of(scenario, enclosure) - enclosure.need.total());
    works.free_hub_ports = free_hub_ports(scenario, built, rate);
    return works;
}

bool is_open(const Scenario& scenario, const BuiltWorks& works, const Step& step) {
    if (!works.cables.contains(step)) return false;
    const std::vector<Way> ways = ways_of(scenario, step.segment);
    return static_cast<std::size_t>(step.way) < ways.size() &&
           needs_no_digging(ways[static_cast<std::size_t>(step.way)]);
}

Network network_beside(const Scenario& scenario, const BuiltWorks& works) {
    WithheldWays full;
    for (const auto& [step, cables] : works.cables) {
        const std::vector<Way> ways = ways_of(scenario, step.segment);
        if (static_cast<std::size_t>(step.way) >= ways.size()) continue;
        const int room = ways[static_cast<std::size_t>(step.way)].room;
        if (room >= 0 && cables >= room) full.insert({step.segment, step.way});
    }
    Network network = network_of(scenario, full);
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        NetworkEdge& origin = network.origin[e];
        const auto used = works.cables.find({origin.segment, origin.way});
        if (used == works.cables.end()) continue;
        if (origin.room >= 0) origin.room -= used->second;
        if (is_open(scenario, works, used->first)) network.edges[e].opening = 0;
    }
    return network;
}

}  // namespace spadework
