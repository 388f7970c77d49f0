#pragma once

// What the trench from the source to every vertex costs one demand at its prices.

#include <cstdint>
#include <vector>

#include "graph/pair_routes.hpp"

namespace spadework::graph::two_level {

/// Shortest labels from the source where an arc costs its price. Prices lie all the way to the source, so that hardly a
/// vertex can be left out, but on few of the arcs, so that most are as near as the one before. They wait in narrow
/// buckets by label, in the order met, and one that turns out nearer is looked at again. Dial, "Algorithm 360",
/// Communications of the ACM 12 (1969). One for each thread.
class TrenchPrices {
public:
    TrenchPrices(const pair_routes::Network& network, VertexId source);

    /// `prices` by arc. Labels above `most` are left infinite.
    void measure(const float* prices, double most);

    [[nodiscard]] double label(VertexId v) const { return label_[v]; }

    /// Arcs on the way from the source to the vertex, those next to it first.
    void append_way(VertexId v, std::vector<std::uint32_t>& arcs) const;

private:
    struct Hop {
        VertexId to = 0;
        std::uint32_t arc = 0;  ///< From here to there.
    };

    void step_from(VertexId here, const float* prices);
    void wait(VertexId v, double label);
    void empty_bucket(const float* prices);

    VertexId source_;
    std::vector<std::uint32_t> first_;  ///< By vertex: its first hop.
    std::vector<Hop> hops_;
    double most_ = 0.0;
    double buckets_a_label_ = 0.0;
    std::size_t now_ = 0;  ///< The bucket being emptied.
    std::vector<double> label_;
    std::vector<double> looked_at_;    ///< By vertex: the label it had then; infinite before.
    std::vector<std::uint32_t> by_;    ///< By vertex: the arc into it.
    std::vector<VertexId> came_from_;  ///< By vertex: that arc's tail; -1 at the source.
    std::vector<std::vector<VertexId>> buckets_;
    std::vector<std::uint64_t> waiting_;  ///< A bit for each bucket: whether anything waits in it.
};

}  // namespace spadework::graph::two_level
