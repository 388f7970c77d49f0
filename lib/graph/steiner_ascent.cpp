#include "graph/steiner_ascent.hpp"

#include <algorithm>
#include <queue>
#include <tuple>

#include "graph/label_heap.hpp"

namespace spadework::graph::steiner {

namespace {

class AscentRun {
public:
    AscentRun(const Network& network, const AscentChoice& choice)
        : network_(network),
          choice_(choice),
          active_(network.vertex_count(), 0),
          member_of_(network.vertex_count(), -1),
          cut_(network.vertex_count()) {
        result_.root = choice.root;
        result_.rest.resize(network.half_count());
        for (std::int32_t h = 0; h < network.half_count(); ++h)
            result_.rest[h] = network.half(h).cost;
    }

    Ascent run() && {
        for (const VertexId t : network_.terminals()) {
            if (t == choice_.root) continue;
            active_[t] = 1;
            cut_[t].members.push_back(t);
            for (std::int32_t h = network_.first(t); h < network_.end(t); ++h)
                cut_[t].arcs.push_back(h);
            queue_.push({network_.degree(t), t});
        }
        for (int turn = 1; !queue_.empty(); ++turn) {
            const VertexId t = queue_.top().second;
            queue_.pop();
            work_on(t);
            if (turn % 64 == 0 && choice_.stop && choice_.stop()) break;
        }
        return std::move(result_);
    }

private:
    struct Cut {
        std::vector<VertexId> members;
        std::vector<std::int32_t> arcs;  ///< That enter it, with some that no longer do.
    };
    enum class Growth { done, met_another, large };
    static constexpr std::int64_t kNoLimit = std::numeric_limits<std::int64_t>::max();
    using Turn = std::pair<std::int64_t, VertexId>;

    /// Grows and raises the terminal's cut while no other is much smaller.
    void work_on(VertexId t) {
        Cut& cut = cut_[t];
        for (const VertexId v : cut.members)
            member_of_[v] = t;
        for (;;) {
            const std::int64_t large = queue_.empty() ? kNoLimit : queue_.top().first + queue_.top().first / 4;
            const Growth growth = grow(t, cut, large);
            if (growth == Growth::met_another) {
                active_[t] = 0;
                cut = Cut();
                break;
            }
            if (growth == Growth::large) {
                queue_.push({large + 1, t});
                break;
            }
            if (cut.arcs.empty()) {
                result_.bound = kFar;
                active_[t] = 0;
                break;
            }
            const std::int64_t score = score_of(cut);
            if (score > large) {
                queue_.push({score, t});
                break;
            }
            raise(t, cut);
        }
        for (const VertexId v : cut.members)
            member_of_[v] = -1;
        for (const VertexId v : released_)
            member_of_[v] = -1;
        released_.clear();
    }

    /// Takes in everything that reaches the cut by arcs with nothing left, as long as the root or another cut's
    /// terminal is not among it and the cut does not become larger than `large`. When done only arcs that enter are
    /// left.
    Growth grow(VertexId t, Cut& cut, std::int64_t large) {
        for (std::size_t i = 0; i < cut.arcs.size();) {
            const std::int32_t h = cut.arcs[i];
            const VertexId from = network_.half(h).to;
            if (member_of_[from] != t && result_.rest[h] > 0) {
                ++i;
                continue;
            }
            const bool inside = member_of_[from] == t;
            if (!inside && static_cast<std::int64_t>(cut.arcs.size()) + network_.degree(from) > large)
                return Growth::large;
            cut.arcs[i] = cut.arcs.back();
            cut.arcs.pop_back();
            if (inside) continue;
            member_of_[from] = t;
            cut.members.push_back(from);
            if (from == choice_.root || active_[from]) {
                released_ = cut.members;
                return Growth::met_another;
            }
            for (std::int32_t k = network_.first(from); k < network_.end(from); ++k) {
                if (member_of_[network_.half(k).to] != t) cut.arcs.push_back(k);
            }
        }
        // What was passed over before its source came in.
        std::erase_if(cut.arcs, [&](std::int32_t h) { return member_of_[network_.half(h).to] == t; });
        return Growth::done;
    }

    /// Small cuts first, and rather those that a good tree has one edge of: only they let the bound meet its cost.
    /// Measured: counting the tree's edges in either direction does better than only those that lead in.
    [[nodiscard]] std::int64_t score_of(const Cut& cut) const {
        const auto size = static_cast<std::int64_t>(cut.arcs.size());
        if (choice_.guide.empty()) return size;
        std::int64_t entries = 0;
        for (const std::int32_t h : cut.arcs)
            entries += choice_.guide[h];
        return entries <= 1 ? size : size * (2 + 3 * entries);
    }

    void raise(VertexId t, const Cut& cut) {
        Cost by = kFar;
        for (const std::int32_t h : cut.arcs)
            by = std::min(by, result_.rest[h]);
        for (const std::int32_t h : cut.arcs)
            result_.rest[h] -= by;
        result_.bound = std::min(kFar, result_.bound + by);
        if (choice_.on_raise) choice_.on_raise(t, cut.arcs, by);
    }

    const Network& network_;
    const AscentChoice& choice_;
    Ascent result_;
    std::vector<char> active_;
    std::vector<VertexId> member_of_;
    std::vector<VertexId> released_;
    std::vector<Cut> cut_;
    std::priority_queue<Turn, std::vector<Turn>, std::greater<>> queue_;
};

void distances_from(const Network& network, VertexId root, const std::vector<Cost>& rest, std::vector<Cost>& label) {
    LabelHeap<Cost> queue(network.vertex_count());
    label.assign(network.vertex_count(), kFar);
    label[root] = 0;
    queue.push_or_lower(root, 0);
    while (!queue.empty()) {
        const VertexId here = queue.pop();
        for (std::int32_t h = network.first(here); h < network.end(here); ++h) {
            const Half& half = network.half(h);
            const Cost along = label[here] + rest[half.twin];
            if (along >= label[half.to]) continue;
            label[half.to] = along;
            queue.push_or_lower(half.to, along);
        }
    }
}

struct Arrival {
    Cost distance;
    VertexId at;
    VertexId terminal;
    bool operator>(const Arrival& other) const {
        return std::tie(distance, at, terminal) > std::tie(other.distance, other.at, other.terminal);
    }
};

}  // namespace

Ascent ascend(const Network& network, const AscentChoice& choice) {
    return AscentRun(network, choice).run();
}

RestDistances rest_distances(const Network& network, VertexId root, const std::vector<Cost>& rest) {
    RestDistances result;
    distances_from(network, root, rest, result.from_root);
    result.to_terminal.assign(network.vertex_count(), kFar);
    result.to_second.assign(network.vertex_count(), kFar);
    std::vector<VertexId> nearest(network.vertex_count(), -1);
    std::priority_queue<Arrival, std::vector<Arrival>, std::greater<>> queue;
    for (const VertexId t : network.terminals()) {
        if (t != root) queue.push({0, t, t});
    }
    while (!queue.empty()) {
        const Arrival here = queue.top();
        queue.pop();
        if (nearest[here.at] == here.terminal || result.to_second[here.at] < kFar) continue;
        (nearest[here.at] < 0 ? result.to_terminal : result.to_second)[here.at] = here.distance;
        if (nearest[here.at] < 0) nearest[here.at] = here.terminal;
        for (std::int32_t h = network.first(here.at); h < network.end(here.at); ++h) {
            const VertexId next = network.half(h).to;
            if (result.to_second[next] < kFar || nearest[next] == here.terminal) continue;
            queue.push({here.distance + rest[h], next, here.terminal});
        }
    }
    return result;
}

}  // namespace spadework::graph::steiner
