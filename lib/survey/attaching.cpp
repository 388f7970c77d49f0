// Vertices for laterals to leave from.

#include <algorithm>
#include <tuple>

#include "geometry/geodesic.hpp"
#include "survey/site_assembly.hpp"

namespace spadework::survey {

namespace {

/// A lateral that would leave closer than this to a vertex leaves from the vertex.
constexpr double joins_at_vertex_metres = 0.5;

double metres(const Position& a, const Position& b) {
    return metres_between(a, b, CoordinateSystem::wgs84_degrees);
}

/// The end of the edge that is near enough to the foot; -1 where neither is.
int end_near(const LineNetwork& network, const Lateral& lateral) {
    const int from = network.from(lateral.edge);
    const int to = network.to(lateral.edge);
    const double to_start = metres(lateral.foot, network.at(from));
    const double to_end = metres(lateral.foot, network.at(to));
    if (std::min(to_start, to_end) > joins_at_vertex_metres) return -1;
    return to_start <= to_end ? from : to;
}

}  // namespace

std::vector<int> attach(LineNetwork& network, const std::vector<Lateral>& laterals) {
    std::vector<std::size_t> order;
    std::vector<int> vertices(laterals.size(), -1);
    for (std::size_t i = 0; i < laterals.size(); ++i) {
        vertices[i] = end_near(network, laterals[i]);
        if (vertices[i] < 0) order.push_back(i);
    }
    std::sort(order.begin(), order.end(), [&laterals](std::size_t a, std::size_t b) {
        const auto key = [&laterals](std::size_t i) {
            const Lateral& lateral = laterals[i];
            return std::make_tuple(lateral.edge.chain, lateral.edge.step, lateral.share, i);
        };
        return key(a) < key(b);
    });
    std::vector<Cut> cuts;
    for (const std::size_t i : order) {
        const Lateral& lateral = laterals[i];
        const bool same_edge =
            !cuts.empty() && cuts.back().edge.chain == lateral.edge.chain && cuts.back().edge.step == lateral.edge.step;
        if (same_edge && metres(network.at(cuts.back().vertex), lateral.foot) <= joins_at_vertex_metres) {
            vertices[i] = cuts.back().vertex;
            continue;
        }
        vertices[i] = network.grid.vertex_at(rounded_degrees(lateral.foot));
        cuts.push_back({lateral.edge, lateral.share, vertices[i]});
    }
    apply_cuts(network, std::move(cuts));
    return vertices;
}

}  // namespace spadework::survey
