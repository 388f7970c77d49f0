#include "extension/ways_apart.hpp"

#include <vector>

#include "layout/added_cable.hpp"

namespace spadework {

namespace {

struct Ends {
    PlaceIndex from = 0;
    PlaceIndex to = 0;
};

Ends ends_of(const ExtensionSearch& search, const Source& source, std::size_t addition) {
    const Building& building = search.scenario.buildings[static_cast<std::size_t>(search.additions[addition])];
    return {search.place_of(source), building.place};
}

Network without(const Network& network, SegmentIndex segment) {
    Network left{network.scale, network.vertex_count, {}, {}};
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        if (network.origin[e].segment == segment) continue;
        left.edges.push_back(network.edges[e]);
        left.origin.push_back(network.origin[e]);
    }
    return left;
}

bool joined(const Network& network, const CableFigures& cable, Ends ends) {
    return AddedCable(network, cable, {}, ends.from, ends.to).cost_to(ends.to).has_value();
}

/// Takes each segment out unless the ends had no way without it.
Network without(Network network, const CableFigures& cable, Ends ends, const std::set<SegmentIndex>& segments) {
    for (const SegmentIndex segment : segments) {
        Network left = without(network, segment);
        if (joined(left, cable, ends)) network = std::move(left);
    }
    return network;
}

}  // namespace

std::optional<RoutedExtension> routed_apart(const ExtensionSearch& pair, const std::vector<Source>& sources,
                                            const std::vector<std::size_t>& order,
                                            const std::set<SegmentIndex>& others) {
    std::set<SegmentIndex> passed = others;
    std::set<Step> open;
    std::vector<Route> routes(order.size());
    for (const std::size_t i : order) {
        const Ends ends = ends_of(pair, sources[i], i);
        const Network network = without(pair.network, pair.figures[i], ends, passed);
        const AddedCable cable(network, pair.figures[i], open, ends.from, ends.to);
        if (!cable.cost_to(ends.to)) return std::nullopt;
        routes[i] = route_along(network, cable.way_to(ends.to), ends.from, ends.to);
        open.insert(routes[i].steps.begin(), routes[i].steps.end());
        for (const Step& step : routes[i].steps)
            passed.insert(step.segment);
    }
    RoutedExtension routed;
    for (std::size_t i = 0; i < routes.size(); ++i)
        routed.additions.push_back({pair.additions[i], sources[i], routes[i]});
    return routed;
}

}  // namespace spadework
