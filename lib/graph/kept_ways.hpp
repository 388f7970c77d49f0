#pragma once

// Cheapest ways from one vertex to others when costs change little from search to search: the ways found last are
// looked at first, and only what has become cheaper elsewhere is searched.

#include <algorithm>
#include <limits>
#include <span>
#include <vector>

#include "graph/adjacency.hpp"
#include "graph/arc.hpp"
#include "graph/label_heap.hpp"

namespace spadework::graph {

/// The ends of an edge, close together in memory.
struct EdgeEnds {
    VertexId tail = 0;
    VertexId head = 0;
};

/// What searches need, used by one after the other.
class KeptWays {
public:
    KeptWays(const Adjacency& steps, std::span<const EdgeEnds> ends, std::size_t vertices)
        : steps_(steps), ends_(ends), label_(vertices, kFar), queue_(vertices) {}

    /// By vertex: what its way costs, as far as the search went; infinite where there is none.
    [[nodiscard]] const std::vector<double>& label() const { return label_; }

    /// Finds ways from `root` to `wanted`, or to all vertices for -1. `via`, by vertex, holds the arc by which the way
    /// of the last search comes in, or -1 (all of them before the first), and is brought up to date. `price` is by arc
    /// and never negative. Of ways that cost the same the one known stays.
    template <class Price>
    void mend(VertexId root, VertexId wanted, std::vector<ArcId>& via, Price price) {
        follow_known(root, via, price);
        const double* const enough = wanted >= 0 ? &label_[wanted] : &kFar;
        const auto lower = [&](VertexId from, VertexId to, ArcId arc) {
            const double along = label_[from] + price(arc);
            if (along >= label_[to] || along >= *enough) return;
            label_[to] = along;
            via[to] = arc;
            queue_.push_or_lower(to, along);
        };
        for (std::size_t e = 0; e < ends_.size(); ++e) {
            const auto arc = static_cast<ArcId>(2 * e);
            lower(ends_[e].tail, ends_[e].head, arc);
            lower(ends_[e].head, ends_[e].tail, arc + 1);
        }
        while (!queue_.empty() && queue_.top_key() < *enough) {
            const VertexId here = queue_.pop();
            for (const Step& step : steps_.from(here))
                lower(here, step.to, 2 * step.edge + (ends_[step.edge].tail == here ? 0 : 1));
        }
        queue_.clear();
    }

private:
    static constexpr double kFar = std::numeric_limits<double>::infinity();

    /// What the known ways cost now.
    template <class Price>
    void follow_known(VertexId root, const std::vector<ArcId>& via, Price price) {
        std::fill(label_.begin(), label_.end(), kFar);
        label_[root] = 0.0;
        for (std::size_t v = 0; v < via.size(); ++v) {
            VertexId at = static_cast<VertexId>(v);
            for (; label_[at] == kFar && via[at] >= 0; at = start_of(via[at]))
                open_.push_back(at);
            for (; !open_.empty(); open_.pop_back()) {
                label_[open_.back()] = label_[at] + price(via[open_.back()]);
                at = open_.back();
            }
        }
    }

    [[nodiscard]] VertexId start_of(ArcId arc) const {
        const EdgeEnds& ends = ends_[edge_of(arc)];
        return arc % 2 == 0 ? ends.tail : ends.head;
    }

    const Adjacency& steps_;
    std::span<const EdgeEnds> ends_;
    std::vector<double> label_;
    std::vector<VertexId> open_;
    LabelHeap<double> queue_;
};

}  // namespace spadework::graph
