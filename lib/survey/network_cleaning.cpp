#include "survey/network_cleaning.hpp"

#include <algorithm>
#include <tuple>

#include "geometry/geodesic.hpp"

namespace spadework::survey {

namespace {

std::size_t as_index(int number) {
    return static_cast<std::size_t>(number);
}

/// Which of two edges in the same place is kept: the lower.
auto rank_of(const MapContents& contents, int way) {
    const Way& drawn = contents.ways[as_index(way)];
    const bool stated = contents.ground_choices[as_index(drawn.ground_choice)].source == GroundSource::stated;
    return std::make_tuple(stated ? 0 : 1, drawn.ban.empty() ? 0 : 1, way);
}

/// Marks the edges that are in the place of a better one.
std::vector<char> repeated_edges(const LineNetwork& network, const std::vector<Edge>& edges,
                                 const MapContents& contents) {
    std::vector<std::pair<int, int>> ends_of_edge;
    ends_of_edge.reserve(edges.size());
    for (const Edge& edge : edges)
        ends_of_edge.push_back(std::minmax({network.from(edge), network.to(edge)}));
    const auto ends = [&](std::size_t i) -> const auto& {
        return ends_of_edge[i];
    };
    const auto way = [&](std::size_t i) { return network.chains[as_index(edges[i].chain)].way; };
    const auto level = [&](std::size_t i) { return contents.ways[as_index(way(i))].level; };
    std::vector<std::size_t> order(edges.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        if (ends(a) != ends(b)) return ends(a) < ends(b);
        return std::make_tuple(level(a), rank_of(contents, way(a)), a) <
               std::make_tuple(level(b), rank_of(contents, way(b)), b);
    });
    std::vector<char> repeated(edges.size(), 0);
    for (std::size_t i = 1; i < order.size(); ++i) {
        const bool same = ends(order[i - 1]) == ends(order[i]) && level(order[i - 1]) == level(order[i]);
        if (same) repeated[order[i]] = 1;
    }
    return repeated;
}

int root_of(std::vector<int>& parent, int item) {
    while (parent[as_index(item)] != item) {
        int& up = parent[as_index(item)];
        up = parent[as_index(up)];
        item = up;
    }
    return item;
}

}  // namespace

Repeated drop_repeated_edges(LineNetwork& network, const MapContents& contents) {
    const std::vector<Edge> edges = edges_of(network);
    const std::vector<char> repeated = repeated_edges(network, edges, contents);
    Repeated dropped;
    std::vector<Chain> kept;
    std::size_t edge = 0;
    for (const Chain& chain : network.chains) {
        Chain run{chain.way, {}};
        const auto end_run = [&] {
            if (run.vertices.size() > 1) kept.push_back(run);
            run.vertices.clear();
        };
        for (std::size_t step = 0; step + 1 < chain.vertices.size(); ++step, ++edge) {
            const int from = chain.vertices[step];
            const int to = chain.vertices[step + 1];
            if (repeated[edge] != 0) {
                ++dropped.pieces;
                dropped.metres += metres_between(network.at(from), network.at(to), CoordinateSystem::wgs84_degrees);
                end_run();
                continue;
            }
            if (run.vertices.empty()) run.vertices.push_back(from);
            run.vertices.push_back(to);
        }
        end_run();
    }
    network.chains = std::move(kept);
    return dropped;
}

double metres_of(const LineNetwork& network, const Chain& chain) {
    double metres = 0;
    for (std::size_t i = 0; i + 1 < chain.vertices.size(); ++i)
        metres += metres_between(network.at(chain.vertices[i]), network.at(chain.vertices[i + 1]),
                                 CoordinateSystem::wgs84_degrees);
    return metres;
}

Parts parts_of(const LineNetwork& network, const std::vector<Way>& ways, bool barred_too) {
    const auto counts = [&](const Chain& chain) { return barred_too || ways[as_index(chain.way)].ban.empty(); };
    std::vector<int> parent(network.grid.at().size());
    for (std::size_t i = 0; i < parent.size(); ++i)
        parent[i] = static_cast<int>(i);
    for (const Chain& chain : network.chains) {
        if (!counts(chain)) continue;
        for (const int vertex : chain.vertices)
            parent[as_index(root_of(parent, vertex))] = root_of(parent, chain.vertices.front());
    }
    Parts parts;
    std::vector<int> part_of_root(parent.size(), -1);
    for (const Chain& chain : network.chains) {
        parts.of_chain.push_back(-1);
        if (!counts(chain)) continue;
        int& part = part_of_root[as_index(root_of(parent, chain.vertices.front()))];
        if (part < 0) {
            part = static_cast<int>(parts.metres.size());
            parts.metres.push_back(0);
        }
        parts.of_chain.back() = part;
        parts.metres[as_index(part)] += metres_of(network, chain);
    }
    return parts;
}

}  // namespace spadework::survey
