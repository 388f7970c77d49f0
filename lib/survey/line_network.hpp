#pragma once

// Lines as chains of vertices, and the changes that noding makes to them.

#include <cstdint>
#include <vector>

#include "geometry/plane_geometry.hpp"
#include "geometry/vertex_grid.hpp"
#include "scenario/local_plane.hpp"
#include "survey/map_contents.hpp"

namespace spadework::survey {

/// A run of vertices along a way, in its direction; no vertex like the one before it.
struct Chain {
    int way = 0;  ///< Index into the ways.
    std::vector<int> vertices;
};

/// The piece of a chain from one vertex to the next.
struct Edge {
    std::int32_t chain = 0;
    std::int32_t step = 0;  ///< From vertices[step] to vertices[step + 1].
};

/// Vertices of all lines, and the lines as chains of them.
struct LineNetwork {
    VertexGrid grid;
    std::vector<Chain> chains;

    [[nodiscard]] int from(const Edge& edge) const { return vertex(edge, 0); }
    [[nodiscard]] int to(const Edge& edge) const { return vertex(edge, 1); }
    [[nodiscard]] const Position& at(int vertex) const { return grid.at()[static_cast<std::size_t>(vertex)]; }
    [[nodiscard]] Stretch on_plane(const Edge& edge, const LocalPlane& plane) const {
        return {plane.to_plane(at(from(edge))), plane.to_plane(at(to(edge)))};
    }

private:
    [[nodiscard]] int vertex(const Edge& edge, int next) const {
        return chains[static_cast<std::size_t>(edge.chain)].vertices[static_cast<std::size_t>(edge.step + next)];
    }
};

/// Every edge, chain by chain.
std::vector<Edge> edges_of(const LineNetwork& network);

/// A vertex to put into an edge.
struct Cut {
    Edge edge;
    double share = 0;  ///< How far along the edge, 0 to 1; orders the cuts of one edge.
    int vertex = 0;
};

/// Puts the vertices into the edges; cuts whose vertex is already an end of what is left of the edge change nothing.
/// Says for each chain whether it changed.
std::vector<char> apply_cuts(LineNetwork& network, std::vector<Cut> cuts);

/// One chain a way. Points rounded to 10^-7 degree; steps of no length vanish, ways of no length with them, and are
/// counted in `vanished`.
LineNetwork network_of(const std::vector<Way>& ways, int& vanished);

/// Which edges meet at each vertex: for vertex v the entries first[v] to first[v + 1] of `edges`, numbers of the edges
/// in the order of edges_of().
struct Incidence {
    std::vector<std::int32_t> first;
    std::vector<std::int32_t> edges;
    [[nodiscard]] int degree(int vertex) const {
        return first[static_cast<std::size_t>(vertex) + 1] - first[static_cast<std::size_t>(vertex)];
    }
};
Incidence incidence_of(const LineNetwork& network, const std::vector<Edge>& edges);

}  // namespace spadework::survey
