#pragma once

// A lower bound from cuts: every tree must enter each set of vertices that holds a terminal and not the root, and the
// costs of the arcs that enter are shared out among such sets. Wong, "A dual ascent approach for Steiner tree problems
// on a directed graph", Mathematical Programming 28 (1984). Whole numbers throughout, so the bound is exact.

#include <functional>
#include <vector>

#include "graph/steiner_network.hpp"

namespace spadework::graph::steiner {

struct Ascent {
    VertexId root = 0;
    Cost bound = 0;          ///< No tree costs less.
    std::vector<Cost> rest;  ///< For each half edge, as an arc, what is left of its cost.
};

/// One raise of the bound: the terminal that the cut belongs to, the arcs that enter it, and by how much.
using OnRaise = std::function<void(VertexId terminal, const std::vector<std::int32_t>& arcs, Cost by)>;

struct AscentChoice {
    VertexId root = 0;           ///< A terminal.
    std::vector<char> guide;     ///< For each half edge, whether a good tree uses its edge; may be empty.
    OnRaise on_raise;            ///< May be empty.
    std::function<bool()> stop;  ///< Asked now and then; the bound is valid whenever it ends. May be empty.
};

/// Raises until every terminal is reached from the root by arcs with nothing left (or it is told to stop). Where some
/// terminal cannot be reached at all the bound is kFar.
Ascent ascend(const Network& network, const AscentChoice& choice);

/// What the ascent leaves as shortest distances: from the root, and on to the nearest and second nearest terminal.
struct RestDistances {
    std::vector<Cost> from_root;
    std::vector<Cost> to_terminal;
    std::vector<Cost> to_second;  ///< To another terminal than the nearest.
};
RestDistances rest_distances(const Network& network, VertexId root, const std::vector<Cost>& rest);

}  // namespace spadework::graph::steiner
