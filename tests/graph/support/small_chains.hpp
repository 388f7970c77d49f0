#pragma once

// Random small chain problems and their optimum by separate simple code: every set of open edges, every order of the
// stops, every way to cut it into chains.

#include <algorithm>
#include <limits>
#include <random>
#include <utility>
#include <vector>

#include "graph/chain_problem.hpp"

namespace spadework::graph::testing {

constexpr Cost kNever = std::numeric_limits<Cost>::max() / 4;

/// What random chain problems look like.
struct Family {
    VertexId vertices = 7;
    std::int32_t edges = 10;
    std::int32_t stops = 4;
    bool passages = false;
    Cost largest_opening = 40;
    Length longest_hop = 0;  ///< Hops may span so much at the most, edges up to 9 each; 0 for hops of any length.
};

inline ChainProblem random_problem(std::mt19937& random, const Family& family) {
    const auto below = [&](Cost n) { return static_cast<Cost>(random() % static_cast<std::uint32_t>(n)); };
    ChainProblem p;
    p.vertex_count = family.vertices;
    for (std::int32_t e = 0; e < family.edges; ++e) {
        SharedCostEdge edge;
        edge.tail = e + 1 < family.vertices ? e + 1 : static_cast<VertexId>(below(family.vertices));
        edge.head = static_cast<VertexId>(e + 1 < family.vertices ? below(e + 1) : below(family.vertices));
        edge.opening = below(family.largest_opening + 1);
        edge.length = below(10);
        edge.passage = family.passages ? below(8) : 0;
        p.edges.push_back(edge);
    }
    p.source = static_cast<VertexId>(below(family.vertices));
    for (std::int32_t s = 0; s < family.stops; ++s)
        p.stops.push_back(static_cast<VertexId>(below(family.vertices)));
    p.weight = below(4);
    p.multiplicity = below(3);
    p.chain_cost = below(30);
    p.end_saving = below(20);
    p.longest_chain = 1 + static_cast<std::int32_t>(below(family.stops));
    if (family.longest_hop == 0) return p;
    for (std::size_t e = 0; e < p.edges.size(); ++e)
        p.span_of.push_back(below(10));
    p.longest_hop = family.longest_hop;
    return p;
}

/// Least costs from a vertex over open edges by ways that span no more than a hop may, whatever each span costs.
inline std::vector<Cost> limited_distances(const ChainProblem& p, unsigned open, VertexId from) {
    const auto spans = static_cast<std::size_t>(p.longest_hop) + 1;
    std::vector<Cost> least(static_cast<std::size_t>(p.vertex_count) * spans, kNever);  // By vertex and span so far.
    for (std::size_t s = 0; s < spans; ++s)
        least[static_cast<std::size_t>(from) * spans + s] = 0;
    for (bool again = true; again;) {
        again = false;
        for (std::size_t e = 0; e < p.edges.size(); ++e) {
            if ((open >> e & 1U) == 0) continue;
            const Cost cost = p.weight * p.edges[e].length + p.multiplicity * p.edges[e].passage;
            const auto tail = static_cast<std::size_t>(p.edges[e].tail) * spans;
            const auto head = static_cast<std::size_t>(p.edges[e].head) * spans;
            const auto span = static_cast<std::size_t>(p.span_of[e]);
            for (std::size_t s = span; s < spans; ++s) {
                for (const auto& [a, b] : {std::pair(tail, head), std::pair(head, tail)}) {
                    if (least[a + s - span] + cost >= least[b + s]) continue;
                    least[b + s] = least[a + s - span] + cost;
                    again = true;
                }
            }
        }
    }
    std::vector<Cost> distance;
    for (std::size_t v = 0; v < static_cast<std::size_t>(p.vertex_count); ++v)
        distance.push_back(least[v * spans + spans - 1]);
    return distance;
}

inline std::vector<std::vector<Cost>> distances(const ChainProblem& p, unsigned open) {
    const auto n = static_cast<std::size_t>(p.vertex_count);
    if (!p.span_of.empty()) {
        std::vector<std::vector<Cost>> limited;
        for (VertexId v = 0; v < p.vertex_count; ++v)
            limited.push_back(limited_distances(p, open, v));
        return limited;
    }
    std::vector<std::vector<Cost>> d(n, std::vector<Cost>(n, kNever));
    for (std::size_t v = 0; v < n; ++v)
        d[v][v] = 0;
    for (std::size_t e = 0; e < p.edges.size(); ++e) {
        if ((open >> e & 1U) == 0) continue;
        const SharedCostEdge& edge = p.edges[e];
        const Cost cost = p.weight * edge.length + p.multiplicity * edge.passage;
        d[edge.tail][edge.head] = std::min(d[edge.tail][edge.head], cost);
        d[edge.head][edge.tail] = std::min(d[edge.head][edge.tail], cost);
    }
    for (std::size_t k = 0; k < n; ++k) {
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = 0; j < n; ++j)
                d[i][j] = std::min(d[i][j], d[i][k] + d[k][j]);
        }
    }
    return d;
}

/// Cheapest way to cut one order of all stops into chains: every set of cuts.
inline Cost cheapest_cut(const ChainProblem& p, const std::vector<std::vector<Cost>>& d,
                         const std::vector<VertexId>& order) {
    Cost best = kNever;
    for (unsigned cuts = 0; cuts < 1U << (order.size() - 1); ++cuts) {
        Cost total = p.chain_cost - p.end_saving;
        VertexId from = p.source;
        std::int32_t length = 0;
        for (std::size_t i = 0; i < order.size(); ++i) {
            if (i > 0 && (cuts >> (i - 1) & 1U) != 0) {
                total += p.chain_cost - p.end_saving;
                from = p.source;
                length = 0;
            }
            total = std::min(kNever, total + d[from][order[i]]);
            if (++length > p.longest_chain) total = kNever;
            from = order[i];
        }
        best = std::min(best, total);
    }
    return best;
}

inline Cost exhaustive_optimum(const ChainProblem& p) {
    if (p.stops.empty()) return 0;
    Cost best = kNever;
    for (unsigned open = 0; open < 1U << p.edges.size(); ++open) {
        Cost opening = 0;
        for (std::size_t e = 0; e < p.edges.size(); ++e)
            opening += (open >> e & 1U) ? p.edges[e].opening : 0;
        const auto d = distances(p, open);
        std::vector<VertexId> order = p.stops;
        std::sort(order.begin(), order.end());
        do {
            best = std::min(best, opening + cheapest_cut(p, d, order));
        } while (std::next_permutation(order.begin(), order.end()));
    }
    return best >= kNever / 2 ? kNever : best;
}

}  // namespace spadework::graph::testing
