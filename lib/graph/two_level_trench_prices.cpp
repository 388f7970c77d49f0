#include "graph/two_level_trench_prices.hpp"

#include <algorithm>
#include <bit>

namespace spadework::graph::two_level {

namespace {

constexpr std::size_t kBuckets = 16384;  ///< With a quarter of these, half of all vertices are looked at twice.
constexpr std::size_t kBucketsAWord = 64;

template <class Label, class Price>
Label sum_of(const Price* prices, std::size_t count) {
    Label sum = 0;
    for (std::size_t k = 0; k < count; ++k)
        sum += static_cast<Label>(prices[k]);
    return sum;
}

}  // namespace

template <class Price, class Label>
TrenchPrices<Price, Label>::TrenchPrices(const pair_routes::Network& network, VertexId source)
    : source_(source),
      arcs_(2 * network.edges.size()),
      first_{0},
      label_(static_cast<std::size_t>(network.vertex_count)),
      looked_at_(label_.size()),
      by_(label_.size()),
      came_from_(label_.size()),
      buckets_(kBuckets),
      waiting_(kBuckets / kBucketsAWord, 0) {
    for (VertexId v = 0; v < network.vertex_count; ++v) {
        for (const Step& step : network.steps.from(v)) {
            const std::uint32_t tail_to_head = 2 * static_cast<std::uint32_t>(step.edge);
            hops_.push_back({step.to, tail_to_head + (network.edges[step.edge].tail == v ? 0U : 1U)});
        }
        first_.push_back(static_cast<std::uint32_t>(hops_.size()));
    }
}

template <class Price, class Label>
void TrenchPrices<Price, Label>::wait(VertexId v, Label label) {
    const std::size_t bucket =
        std::clamp(static_cast<std::size_t>(static_cast<double>(label) * buckets_a_label_), now_, kBuckets - 1);
    buckets_[bucket].push_back(v);
    waiting_[bucket / kBucketsAWord] |= std::uint64_t{1} << (bucket % kBucketsAWord);
}

template <class Price, class Label>
void TrenchPrices<Price, Label>::step_from(VertexId here, const Price* prices) {
    const Label label = label_[here];
    looked_at_[here] = label;
    for (std::uint32_t h = first_[here]; h < first_[static_cast<std::size_t>(here) + 1]; ++h) {
        const Hop hop = hops_[h];
        const Label along = label + static_cast<Label>(prices[hop.arc]);
        if (along >= label_[hop.to] || along > most_) continue;
        label_[hop.to] = along;
        by_[hop.to] = hop.arc;
        came_from_[hop.to] = here;
        wait(hop.to, along);
    }
}

/// Looks at all that waits in the present bucket, which may grow meanwhile.
template <class Price, class Label>
void TrenchPrices<Price, Label>::empty_bucket(const Price* prices) {
    std::vector<VertexId>& bucket = buckets_[now_];
    for (std::size_t k = 0; k < bucket.size(); ++k) {
        const VertexId here = bucket[k];
        if (looked_at_[here] > label_[here]) step_from(here, prices);
    }
    bucket.clear();
}

template <class Price, class Label>
void TrenchPrices<Price, Label>::measure(const Price* prices, Label most) {
    most_ = most;
    const Label longest = std::min(most, sum_of<Label>(prices, arcs_));
    buckets_a_label_ = longest > 0 ? static_cast<double>(kBuckets) / static_cast<double>(longest) : 0.0;
    std::fill(label_.begin(), label_.end(), far);
    std::fill(looked_at_.begin(), looked_at_.end(), far);
    label_[source_] = 0;
    std::fill(came_from_.begin(), came_from_.end(), -1);
    now_ = 0;
    wait(source_, 0);
    for (std::size_t word = 0; word < waiting_.size(); ++word) {
        while (waiting_[word] != 0) {
            const auto bit = static_cast<std::size_t>(std::countr_zero(waiting_[word]));
            now_ = word * kBucketsAWord + bit;
            empty_bucket(prices);
            waiting_[word] &= ~(std::uint64_t{1} << bit);
        }
    }
}

template <class Price, class Label>
void TrenchPrices<Price, Label>::append_way(VertexId v, std::vector<std::uint32_t>& arcs) const {
    for (; came_from_[v] >= 0; v = came_from_[v])
        arcs.push_back(by_[v]);
}

template class TrenchPrices<float, double>;
template class TrenchPrices<Cost, Cost>;

}  // namespace spadework::graph::two_level
