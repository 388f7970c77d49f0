#pragma once

// Random small Steiner tree problems and their optimum by dynamic programming over sets of terminals (Dreyfus and
// Wagner, "The Steiner problem in graphs", Networks 1, 1971), written as plainly as can be.

#include <algorithm>
#include <cstdint>
#include <limits>
#include <vector>

#include "graph/shared_cost_problem.hpp"
#include "graph/steiner_graph.hpp"
#include "graph/support/small_problems.hpp"

namespace spadework::graph::testing {

struct SteinerCase {
    VertexId vertices = 0;
    std::vector<steiner::InputEdge> edges;
    std::vector<VertexId> terminals;
};

struct SteinerShape {
    int vertices = 10;
    int edges = 18;
    int terminals = 5;
    std::int64_t most_cost = 20;
    bool connected = true;  ///< Starts from a random tree.
};

/// Loops, parallel edges and costs of zero all happen; terminals differ.
inline SteinerCase random_steiner(const SteinerShape& shape, Dice& dice) {
    SteinerCase made;
    made.vertices = shape.vertices;
    for (int e = 0; e < shape.edges; ++e) {
        const bool tree = shape.connected && e + 1 < shape.vertices;
        const auto a = static_cast<VertexId>(tree ? e + 1 : dice.upto(shape.vertices - 1));
        const auto b = static_cast<VertexId>(dice.upto(tree ? e : shape.vertices - 1));
        made.edges.push_back({a, b, dice.upto(shape.most_cost)});
    }
    while (static_cast<int>(made.terminals.size()) < shape.terminals) {
        const auto t = static_cast<VertexId>(dice.upto(shape.vertices - 1));
        if (std::find(made.terminals.begin(), made.terminals.end(), t) == made.terminals.end())
            made.terminals.push_back(t);
    }
    return made;
}

inline constexpr std::int64_t kNoTree = std::numeric_limits<std::int64_t>::max() / 8;

/// Least cost of a tree that joins the terminals, or kNoTree.
inline std::int64_t least_tree(VertexId vertices, const std::vector<steiner::InputEdge>& edges,
                               const std::vector<VertexId>& terminals) {
    if (terminals.size() < 2) return 0;
    const std::size_t sets = std::size_t{1} << terminals.size();
    std::vector<std::vector<std::int64_t>> least(sets, std::vector<std::int64_t>(vertices, kNoTree));
    for (std::size_t t = 0; t < terminals.size(); ++t)
        least[std::size_t{1} << t][terminals[t]] = 0;
    for (std::size_t set = 1; set < sets; ++set) {
        std::vector<std::int64_t>& cost = least[set];
        for (std::size_t part = (set - 1) & set; part > 0; part = (part - 1) & set) {
            for (VertexId v = 0; v < vertices; ++v)
                cost[v] = std::min(cost[v], least[part][v] + least[set ^ part][v]);
        }
        for (bool better = true; better;) {
            better = false;
            for (const steiner::InputEdge& e : edges) {
                for (const auto& [from, to] : {std::pair(e.tail, e.head), std::pair(e.head, e.tail)}) {
                    if (cost[from] + e.cost >= cost[to]) continue;
                    cost[to] = cost[from] + e.cost;
                    better = true;
                }
            }
        }
    }
    return std::min(kNoTree, least[sets - 1][terminals[0]]);
}

inline std::int64_t least_tree(const SteinerCase& made) {
    return least_tree(made.vertices, made.edges, made.terminals);
}

/// Least cost of a tree of a graph, fixed cost included.
inline std::int64_t least_tree(const steiner::Graph& graph) {
    std::vector<steiner::InputEdge> edges;
    std::vector<VertexId> terminals;
    for (EdgeId e = 0; e < graph.edge_count(); ++e) {
        if (graph.alive(e)) edges.push_back({graph.edge(e).tail, graph.edge(e).head, graph.edge(e).cost});
    }
    for (VertexId v = 0; v < graph.vertex_count(); ++v) {
        if (graph.is_terminal(v)) terminals.push_back(v);
    }
    return std::min(kNoTree, least_tree(graph.vertex_count(), edges, terminals) + graph.fixed_cost());
}

/// The same as a problem of the solver, rooted at the first terminal.
inline SharedCostProblem problem_of(const SteinerCase& made) {
    SharedCostProblem problem;
    problem.vertex_count = made.vertices;
    for (const steiner::InputEdge& e : made.edges)
        problem.edges.push_back({e.tail, e.head, e.cost, 3, 5});
    problem.roots.push_back({made.terminals.front(), 7});
    for (std::size_t t = 1; t < made.terminals.size(); ++t)
        problem.demands.push_back({made.terminals[t], 0, 0});
    return problem;
}

}  // namespace spadework::graph::testing
