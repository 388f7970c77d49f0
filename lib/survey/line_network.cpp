#include "survey/line_network.hpp"

#include <algorithm>
#include <tuple>

namespace spadework::survey {

std::vector<Edge> edges_of(const LineNetwork& network) {
    std::vector<Edge> edges;
    for (std::size_t chain = 0; chain < network.chains.size(); ++chain) {
        const std::size_t vertices = network.chains[chain].vertices.size();
        for (std::size_t step = 0; step + 1 < vertices; ++step)
            edges.push_back({static_cast<std::int32_t>(chain), static_cast<std::int32_t>(step)});
    }
    return edges;
}

std::vector<char> apply_cuts(LineNetwork& network, std::vector<Cut> cuts) {
    std::sort(cuts.begin(), cuts.end(), [](const Cut& a, const Cut& b) {
        return std::tie(a.edge.chain, a.edge.step, a.share, a.vertex) <
               std::tie(b.edge.chain, b.edge.step, b.share, b.vertex);
    });
    std::vector<char> changed(network.chains.size(), 0);
    for (auto cut = cuts.begin(); cut != cuts.end();) {
        const auto chain = static_cast<std::size_t>(cut->edge.chain);
        const std::vector<int>& before = network.chains[chain].vertices;
        std::vector<int> after;
        after.reserve(before.size() + 2);
        for (std::size_t i = 0; i < before.size(); ++i) {
            after.push_back(before[i]);
            for (; cut != cuts.end() && static_cast<std::size_t>(cut->edge.chain) == chain &&
                   static_cast<std::size_t>(cut->edge.step) == i;
                 ++cut) {
                const bool is_end =
                    cut->vertex == after.back() || (i + 1 < before.size() && cut->vertex == before[i + 1]);
                if (!is_end) after.push_back(cut->vertex);
            }
        }
        if (after.size() == before.size()) continue;
        network.chains[chain].vertices = std::move(after);
        changed[chain] = 1;
    }
    return changed;
}

LineNetwork network_of(const std::vector<Way>& ways, int& vanished) {
    LineNetwork network;
    for (std::size_t way = 0; way < ways.size(); ++way) {
        Chain chain{static_cast<int>(way), {}};
        for (const Position& point : ways[way].points) {
            const int vertex = network.grid.vertex_at(rounded_degrees(point));
            if (!chain.vertices.empty() && chain.vertices.back() == vertex) {
                ++vanished;
                continue;
            }
            chain.vertices.push_back(vertex);
        }
        if (chain.vertices.size() > 1) network.chains.push_back(std::move(chain));
    }
    return network;
}

Incidence incidence_of(const LineNetwork& network, const std::vector<Edge>& edges) {
    Incidence incidence;
    incidence.first.assign(network.grid.at().size() + 1, 0);
    for (const Edge& edge : edges) {
        ++incidence.first[static_cast<std::size_t>(network.from(edge)) + 1];
        ++incidence.first[static_cast<std::size_t>(network.to(edge)) + 1];
    }
    for (std::size_t i = 1; i < incidence.first.size(); ++i)
        incidence.first[i] += incidence.first[i - 1];
    incidence.edges.resize(edges.size() * 2);
    std::vector<std::int32_t> next(incidence.first.begin(), incidence.first.end() - 1);
    for (std::size_t i = 0; i < edges.size(); ++i) {
        for (const int vertex : {network.from(edges[i]), network.to(edges[i])})
            incidence.edges[static_cast<std::size_t>(next[static_cast<std::size_t>(vertex)]++)] =
                static_cast<std::int32_t>(i);
    }
    return incidence;
}

}  // namespace spadework::survey
