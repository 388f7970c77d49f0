#pragma once

// Reductions that keep every tree cheaper than a known one: what lies so far from the root and the terminals, measured
// in what an ascent left of the costs, that the bound would pass the limit. Polzin and Vahdati Daneshmand, "Improved
// algorithms for the Steiner problem in networks", Discrete Applied Mathematics 112 (2001).

#include <vector>

#include "graph/steiner_ascent.hpp"

namespace spadework::graph::steiner {

/// A bound and what it left of the costs: every tree from the root costs at least the bound and what is left of its
/// arcs' costs.
struct Remainder {
    VertexId root = 0;
    const std::vector<Cost>& rest;  ///< For each half edge, as an arc.
    Cost room = 0;                  ///< Limit less bound.
};

/// What no tree cheaper than a limit needs.
class Findings {
public:
    explicit Findings(const Network& network)
        : vertex_out_(network.vertex_count(), 0),
          edge_out_(network.half_count(), 0),
          two_edges_(network.vertex_count(), 0) {}

    /// Adds what the remainder rules out.
    void add(const Network& network, const Remainder& left);

    /// Takes it out of the graph the network was made from, which must not have changed; returns how many edges and
    /// vertices that was.
    std::size_t apply(const Network& network, Graph& graph) const;

private:
    /// A way past a vertex of at most two edges that a cheaper tree may use, by its half edges there.
    struct Pass {
        std::int32_t one;
        std::int32_t other;
    };
    void look_at_passes(const Network& network, const Remainder& left, const RestDistances& far, VertexId v);

    std::vector<char> vertex_out_;
    std::vector<char> edge_out_;   ///< For each half edge.
    std::vector<char> two_edges_;  ///< Vertices that a cheaper tree uses with two edges at most.
    std::vector<Pass> barred_;     ///< Passes that no cheaper tree uses.
};

}  // namespace spadework::graph::steiner
