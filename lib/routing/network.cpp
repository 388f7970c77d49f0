#include "routing/network.hpp"

#include <algorithm>
#include <cmath>

namespace spadework {

namespace {

/// Largest sum of all costs that may meet in one solver run, as largest_cost_minor() guesses it. The solvers refuse
/// sums of 2^58 (2.9e17) by guesses of their own, which count several ways of a segment and several services of a
/// building apart.
constexpr double largest_total = 1e16;

/// What a cable pays to pass a length opened by `method`, in solver units, never more than the exact figure.
graph::Cost passage_units(const OpeningMethod& method, Length length, const Labour& labour, CostScale scale) {
    const double unit = static_cast<double>(scale.per_minor) / 1e6;
    const double pulling = static_cast<double>(labour.installer_rate.thousandths()) * method.pull_hours_per_metre;
    const double exact = (static_cast<double>(method.duct_per_metre.thousandths()) + pulling) *
                         static_cast<double>(length.millimetres()) * unit;
    return std::max<graph::Cost>(0, static_cast<graph::Cost>(std::floor(exact * (1.0 - 1e-12))) - 1);
}

/// A generous guess of the largest cost any plan could reach, in minor units: everything opened, and every building's
/// cable laid along every segment at the dearest price.
double largest_cost_minor(const Scenario& scenario) {
    UnitPrice dearest;
    for (const CableProduct& cable : scenario.catalogue.cables)
        dearest = std::max(dearest, cable.price_per_metre);
    double opening = 0;
    double metres = 0;
    double passage = 0;
    for (std::size_t s = 0; s < scenario.segments.size(); ++s) {
        double dearest_way = 0;
        double dearest_passage = 0;
        for (const Way& way : ways_of(scenario, static_cast<SegmentIndex>(s))) {
            dearest_way = std::max(dearest_way, static_cast<double>(way.opening.minor()));
            dearest_passage = std::max(
                dearest_passage, static_cast<double>(passage_per_metre(*way.method, scenario.labour).thousandths()));
        }
        opening += dearest_way;
        metres += scenario.segments[s].length.metres();
        passage += dearest_passage / 1000.0 * scenario.segments[s].length.metres();
    }
    const double cables = static_cast<double>(scenario.buildings.size()) + scenario.rules.most_enclosures + 1;
    return opening + cables * 4.0 * (metres * static_cast<double>(dearest.thousandths()) / 1000.0 + passage);
}

CostScale scale_for(const Scenario& scenario) {
    const double largest = largest_cost_minor(scenario);
    CostScale scale;
    while (scale.per_minor > 1 && largest * static_cast<double>(scale.per_minor) > largest_total)
        scale.per_minor /= 10;
    return scale;
}

/// Whether an earlier way of the same segment, one without limited room, opens and passes no dearer.
bool dominated(const graph::SharedCostEdge& edge, const Network& network, std::size_t first_of_segment) {
    for (std::size_t e = first_of_segment; e < network.edges.size(); ++e) {
        const graph::SharedCostEdge& other = network.edges[e];
        const bool no_dearer = other.opening <= edge.opening && other.passage <= edge.passage;
        if (network.origin[e].room < 0 && no_dearer) return true;
    }
    return false;
}

}  // namespace

Network network_of(const Scenario& scenario, const WithheldWays& withheld) {
    Network network;
    network.scale = scale_for(scenario);
    network.vertex_count = static_cast<graph::VertexId>(scenario.places.size());
    for (std::size_t s = 0; s < scenario.segments.size(); ++s) {
        const Segment& segment = scenario.segments[s];
        const auto index = static_cast<SegmentIndex>(s);
        const std::vector<Way> ways = ways_of(scenario, index);
        const std::size_t first_of_segment = network.edges.size();
        for (int w = 0; w < static_cast<int>(ways.size()); ++w) {
            const Way& way = ways[static_cast<std::size_t>(w)];
            if (withheld.contains({index, w})) continue;
            const graph::SharedCostEdge edge{
                segment.from, segment.to, network.scale.units(way.opening), segment.length.millimetres(),
                passage_units(*way.method, segment.length, scenario.labour, network.scale)};
            if (dominated(edge, network, first_of_segment)) continue;
            network.edges.push_back(edge);
            network.origin.push_back({index, w, way.room});
        }
    }
    return network;
}

}  // namespace spadework
