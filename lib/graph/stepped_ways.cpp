#include "graph/stepped_ways.hpp"

#include <algorithm>
#include <queue>
#include <tuple>
#include <unordered_map>

#include "graph/saturating.hpp"

namespace spadework::graph {

/// For each vertex the ways of getting there that no other way beats in cost and in length.
class SteppedWays::Beginnings {
public:
    /// Keeps the label unless it is beaten; false when it is.
    bool keep(const Label& label) {
        std::vector<std::pair<Cost, Length>>& here = kept_[label.at];
        const auto beats = [&label](const std::pair<Cost, Length>& other) {
            return other.first <= label.cost && other.second <= label.length;
        };
        if (std::any_of(here.begin(), here.end(), beats)) return false;
        here.emplace_back(label.cost, label.length);
        labels_.push_back({label.before, label.by});
        return true;
    }
    [[nodiscard]] std::size_t count() const { return labels_.size(); }

    /// The edges to the label kept last.
    [[nodiscard]] std::vector<EdgeId> path_to_last() const {
        std::vector<EdgeId> path;
        for (auto i = static_cast<std::int32_t>(labels_.size()) - 1; labels_[static_cast<std::size_t>(i)].by >= 0;) {
            path.push_back(labels_[static_cast<std::size_t>(i)].by);
            i = labels_[static_cast<std::size_t>(i)].before;
        }
        std::reverse(path.begin(), path.end());
        return path;
    }

private:
    std::unordered_map<VertexId, std::vector<std::pair<Cost, Length>>> kept_;
    struct Kept {
        std::int32_t before = -1;
        EdgeId by = -1;
    };
    std::vector<Kept> labels_;  ///< In the order in which they were kept.
};

SteppedWays::SteppedWays(VertexId vertex_count, const std::vector<SharedCostEdge>& edges)
    : edges_(edges),
      steps_(vertex_count, edges),
      straight_(static_cast<std::size_t>(vertex_count)),
      queue_(static_cast<std::size_t>(vertex_count)) {}

void SteppedWays::aim_at(VertexId target, const ArcCosts& costs, Cost slope, std::optional<VertexId> start) {
    costs_ = &costs;
    target_ = target;
    std::fill(straight_.begin(), straight_.end(), kLargestCost);
    straight_[static_cast<std::size_t>(target)] = 0;
    looked_at_ = kLargestCost;
    queue_.clear();
    queue_.push_or_lower(target, 0);
    while (!queue_.empty()) {
        const VertexId here = queue_.pop();
        if (here == start) {
            looked_at_ = straight_[static_cast<std::size_t>(here)];
            return;
        }
        for (const Step& step : steps_.from(here)) {
            const auto e = static_cast<std::size_t>(step.edge);
            const std::size_t direction = edges_[e].head == here ? 0 : 1;
            const Cost along = add(costs[direction][e], times(slope, edges_[e].length));
            const Cost there = add(straight_[static_cast<std::size_t>(here)], along);
            Cost& known = straight_[static_cast<std::size_t>(step.to)];
            if (there >= known) continue;
            known = there;
            queue_.push_or_lower(step.to, there);
        }
    }
}

SteppedWays::Cheapest SteppedWays::cheapest_from(VertexId start, const LengthPrice& price,
                                                 std::size_t most_labels) const {
    const auto least_of = [&](Cost cost, Length length, VertexId at) {
        return add(add(cost, add(price.base, times(price.slope, length))), straight_from(at));
    };
    const auto later = [](const Label& a, const Label& b) {
        return std::tie(a.least, a.cost, a.length, a.at) > std::tie(b.least, b.cost, b.length, b.at);
    };
    Cheapest best{kLargestCost, kLargestCost, {}};
    if (straight_from(start) == kLargestCost) return best;
    std::priority_queue<Label, std::vector<Label>, decltype(later)> queue(later);
    queue.push({least_of(0, 0, start), 0, 0, start, -1, -1});
    Beginnings beginnings;
    while (!queue.empty()) {
        const Label here = queue.top();
        if (here.least >= best.cost || beginnings.count() > most_labels) {
            best.least = std::min(best.cost, here.least);
            return best;
        }
        queue.pop();
        if (!beginnings.keep(here)) continue;
        if (here.at == target_) {
            const Cost whole = add(here.cost, price.price(here.length));
            if (whole < best.cost) best = {whole, whole, beginnings.path_to_last()};
            continue;
        }
        const auto kept = static_cast<std::int32_t>(beginnings.count()) - 1;
        for (const Step& step : steps_.from(here.at)) {
            const auto e = static_cast<std::size_t>(step.edge);
            const std::size_t direction = edges_[e].tail == here.at ? 0 : 1;
            const Cost cost = add(here.cost, (*costs_)[direction][e]);
            const Length length = add(here.length, edges_[e].length);
            const Cost least = least_of(cost, length, step.to);
            if (least < best.cost) queue.push({least, cost, length, step.to, kept, step.edge});
        }
    }
    best.least = best.cost;
    return best;
}

}  // namespace spadework::graph
