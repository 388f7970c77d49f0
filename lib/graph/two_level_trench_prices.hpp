#pragma once

// What the trench from the source to every vertex costs one demand at its prices.

#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "graph/pair_routes.hpp"

namespace spadework::graph::two_level {

/// Shortest labels from the source where an arc costs its price. Prices lie all the way to the source, so that hardly a
/// vertex can be left out, but on few of the arcs, so that most are as near as the one before. They wait in narrow
/// buckets by label, in the order met, and one that turns out nearer is looked at again. Dial, "Algorithm 360",
/// Communications of the ACM 12 (1969). Labels are sums of prices: all that one demand pays must not overflow. One for
/// each thread.
template <class Price, class Label>
class TrenchPrices {
public:
    /// What is out of reach has this label.
    static constexpr Label far = std::numeric_limits<Label>::has_infinity ? std::numeric_limits<Label>::infinity()
                                                                          : std::numeric_limits<Label>::max();

    TrenchPrices(const pair_routes::Network& network, VertexId source);

    /// `prices` by arc. Labels above `most` count as out of reach.
    void measure(const Price* prices, Label most = far);

    [[nodiscard]] Label label(VertexId v) const { return label_[v]; }

    /// The last arc on the way from the source; nothing for the source and what is out of reach.
    [[nodiscard]] std::optional<std::uint32_t> last_arc(VertexId v) const {
        return came_from_[v] < 0 ? std::nullopt : std::optional(by_[v]);
    }

    /// Arcs on the way from the source to the vertex, those next to it first.
    void append_way(VertexId v, std::vector<std::uint32_t>& arcs) const;

private:
    struct Hop {
        VertexId to = 0;
        std::uint32_t arc = 0;  ///< From here to there.
    };

    void step_from(VertexId here, const Price* prices);
    void wait(VertexId v, Label label);
    void empty_bucket(const Price* prices);

    VertexId source_;
    std::size_t arcs_;
    std::vector<std::uint32_t> first_;  ///< By vertex: its first hop.
    std::vector<Hop> hops_;
    Label most_ = far;
    double buckets_a_label_ = 0.0;
    std::size_t now_ = 0;  ///< The bucket being emptied.
    std::vector<Label> label_;
    std::vector<Label> looked_at_;     ///< By vertex: the label it had then; out of reach before.
    std::vector<std::uint32_t> by_;    ///< By vertex: the arc into it.
    std::vector<VertexId> came_from_;  ///< By vertex: that arc's tail; -1 where there is none.
    std::vector<std::vector<VertexId>> buckets_;
    std::vector<std::uint64_t> waiting_;  ///< A bit for each bucket: whether anything waits in it.
};

/// For steering, and for proofs.
extern template class TrenchPrices<float, double>;
extern template class TrenchPrices<Cost, Cost>;

}  // namespace spadework::graph::two_level
