#pragma once

// Bottleneck Steiner distance (special distance): a way between two vertices is cut at the terminals it passes; its
// length is that of its longest piece. What costs more than the shortest such way is never needed. Duin and Volgenant,
// "Reduction tests for the Steiner problem in graphs", Networks 19 (1989).

#include <cstdint>
#include <vector>

#include "graph/label_heap.hpp"
#include "graph/steiner_network.hpp"

namespace spadework::graph::steiner {

struct NearTerminal {
    VertexId terminal = -1;
    Cost distance = kFar;
    std::int32_t towards = -1;  ///< Half edge to the next vertex on the way there; -1 at the terminal itself.
};

/// The nearest few terminals of every vertex, along ways that pass no other terminal.
class NearTerminals {
public:
    static constexpr int kMost = 4;

    NearTerminals(const Network& network, int most);

    /// The i-th nearest; its terminal is -1 when there are fewer.
    [[nodiscard]] const NearTerminal& of(VertexId v, int i) const { return near_[v * kMost + i]; }
    [[nodiscard]] int most() const { return most_; }

private:
    /// Adds what was found last; false when the terminal is known or the list is full.
    bool take(VertexId v, const NearTerminal& found);

    int most_;
    std::vector<NearTerminal> near_;
};

/// Special distances between terminals: the longest edge on the way along a minimum spanning tree of the terminals.
class TerminalBottlenecks {
public:
    TerminalBottlenecks(const Network& network, const NearTerminals& near);

    [[nodiscard]] Cost between(VertexId a, VertexId b) const;

private:
    struct Link {
        VertexId up = -1;
        Cost length = kFar;
    };
    std::vector<Link> link_;
};

/// Upper limits of special distances, from terminals nearby.
class SpecialDistances {
public:
    explicit SpecialDistances(const Network& network)
        : near_(network, NearTerminals::kMost), bottlenecks_(network, near_) {}

    /// At least the special distance; stops looking once below `enough`.
    [[nodiscard]] Cost at_most(VertexId u, VertexId v, Cost enough) const;
    [[nodiscard]] const NearTerminals& near() const { return near_; }

private:
    NearTerminals near_;
    TerminalBottlenecks bottlenecks_;
};

/// Shortest ways from a vertex as far as a limit, or until so many vertices are settled.
class NearbySearch {
public:
    explicit NearbySearch(const Network& network)
        : network_(network), label_(network.vertex_count(), kFar), queue_(network.vertex_count()) {}

    /// Ways through `barred` are left out (-1: none). Labels stay until the next search.
    void run(VertexId from, VertexId barred, Cost limit, int most_settled);

    /// Length of some way, or kFar where none was met.
    [[nodiscard]] Cost label(VertexId v) const { return label_[v]; }

private:
    const Network& network_;
    std::vector<Cost> label_;
    std::vector<VertexId> met_;
    LabelHeap<Cost> queue_;
};

}  // namespace spadework::graph::steiner
