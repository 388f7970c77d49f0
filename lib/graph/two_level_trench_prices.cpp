#include "graph/two_level_trench_prices.hpp"

#include <algorithm>
#include <bit>
#include <limits>

namespace spadework::graph::two_level {

namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr std::size_t kBuckets = 16384;  ///< With a quarter of these, half of all vertices are looked at twice.
constexpr std::size_t kBucketsAWord = 64;

double sum_of(const float* prices, std::size_t count) {
    double sum = 0.0;
    for (std::size_t k = 0; k < count; ++k)
        sum += static_cast<double>(prices[k]);
    return sum;
}

}  // namespace

TrenchPrices::TrenchPrices(const pair_routes::Network& network, VertexId source)
    : source_(source),
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

void TrenchPrices::wait(VertexId v, double label) {
    const std::size_t bucket = std::clamp(static_cast<std::size_t>(label * buckets_a_label_), now_, kBuckets - 1);
    buckets_[bucket].push_back(v);
    waiting_[bucket / kBucketsAWord] |= std::uint64_t{1} << (bucket % kBucketsAWord);
}

void TrenchPrices::step_from(VertexId here, const float* prices) {
    const double label = label_[here];
    looked_at_[here] = label;
    for (std::uint32_t h = first_[here]; h < first_[static_cast<std::size_t>(here) + 1]; ++h) {
        const Hop hop = hops_[h];
        const double along = label + static_cast<double>(prices[hop.arc]);
        if (along >= label_[hop.to] || along > most_) continue;
        label_[hop.to] = along;
        by_[hop.to] = hop.arc;
        came_from_[hop.to] = here;
        wait(hop.to, along);
    }
}

/// Looks at all that waits in the present bucket, which may grow meanwhile.
void TrenchPrices::empty_bucket(const float* prices) {
    std::vector<VertexId>& bucket = buckets_[now_];
    for (std::size_t k = 0; k < bucket.size(); ++k) {
        const VertexId here = bucket[k];
        if (looked_at_[here] > label_[here]) step_from(here, prices);
    }
    bucket.clear();
}

void TrenchPrices::measure(const float* prices, double most) {
    most_ = most;
    const double longest = std::min(most, sum_of(prices, hops_.size()));
    buckets_a_label_ = longest > 0.0 ? static_cast<double>(kBuckets) / longest : 0.0;
    std::fill(label_.begin(), label_.end(), kInfinite);
    std::fill(looked_at_.begin(), looked_at_.end(), kInfinite);
    label_[source_] = 0.0;
    came_from_[source_] = -1;
    now_ = 0;
    wait(source_, 0.0);
    for (std::size_t word = 0; word < waiting_.size(); ++word) {
        while (waiting_[word] != 0) {
            const auto bit = static_cast<std::size_t>(std::countr_zero(waiting_[word]));
            now_ = word * kBucketsAWord + bit;
            empty_bucket(prices);
            waiting_[word] &= ~(std::uint64_t{1} << bit);
        }
    }
}

void TrenchPrices::append_way(VertexId v, std::vector<std::uint32_t>& arcs) const {
    for (; came_from_[v] >= 0; v = came_from_[v])
        arcs.push_back(by_[v]);
}

}  // namespace spadework::graph::two_level
