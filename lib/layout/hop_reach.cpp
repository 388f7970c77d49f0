#include "layout/hop_reach.hpp"

#include <algorithm>

#include "layout/cable_pieces.hpp"
#include "layout/least_costs.hpp"
#include "layout/link_choice.hpp"
#include "rates/cable_rates.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

constexpr std::int64_t lengths_tried = 200;

/// Whether every link of a hop can be lit when its route is so long.
bool is_lit(const Scenario& scenario, Length route) {
    const int links = links_per_hop(scenario);
    const StrandNeed need = drop_need(links * strands_per_link(scenario.rules.strand_use), scenario.rules);
    const auto pieces = pieces_for(scenario, need, links, route, Money());
    if (!pieces) return false;
    return std::all_of(pieces->begin(), pieces->end(), [&](const CablePiece& piece) {
        if (piece.links.empty()) return true;
        const CableProduct& cable = scenario.catalogue.cables[static_cast<std::size_t>(piece.product)];
        const CableLengths lengths = cable_lengths(cable, route, 0, scenario.rules);
        const GlassPath path{glass_of(lengths, scenario.rules), 2, splices_in(lengths, scenario.rules)};
        return cheapest_lighting(scenario, fastest_rate(scenario), path).has_value();
    });
}

Length longest_reach(const Scenario& scenario) {
    Length longest;
    for (const OpticProduct& optic : scenario.catalogue.optics)
        longest = std::max(longest, optic.reach);
    return longest;
}

/// No hop passes a place twice.
Length longest_on_map(const Scenario& scenario) {
    Length sum;
    for (const Segment& segment : scenario.segments)
        sum += segment.length + scenario.rules.slack.coil_per_handhole;
    return sum;
}

}  // namespace

std::optional<Length> longest_hop(const Scenario& scenario) {
    const Length most = std::min(longest_reach(scenario), longest_on_map(scenario));
    const Length step = Length::from_millimetres(most.millimetres() / lengths_tried + 1);
    std::int64_t tried = 0;
    while (tried <= lengths_tried && !is_lit(scenario, step * tried))
        ++tried;
    while (tried <= lengths_tried && is_lit(scenario, step * (tried + 1)))
        ++tried;
    if (tried > lengths_tried) return std::nullopt;
    Length lit = step * tried;
    Length dark = step * (tried + 1);
    while (dark - lit > Length::from_millimetres(1)) {
        const Length between = Length::from_millimetres((lit.millimetres() + dark.millimetres()) / 2);
        (is_lit(scenario, between) ? lit : dark) = between;
    }
    return lit;
}

std::vector<graph::Length> hop_spans(const Scenario& scenario, const Network& network) {
    const std::int64_t half_coil = (scenario.rules.slack.coil_per_handhole.millimetres() + 1) / 2;
    const auto coil_at = [&](graph::VertexId place) {
        return scenario.places[static_cast<std::size_t>(place)].kind == PlaceKind::handhole ? half_coil : 0;
    };
    std::vector<graph::Length> spans;
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        const Segment& segment = scenario.segments[static_cast<std::size_t>(network.origin[e].segment)];
        const graph::SharedCostEdge& edge = network.edges[e];
        spans.push_back(segment.length.millimetres() + coil_at(edge.tail) + coil_at(edge.head));
    }
    return spans;
}

}  // namespace spadework
