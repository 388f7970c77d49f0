#include "graph/steiner_rivals.hpp"

#include <algorithm>

#include "graph/label_heap.hpp"

namespace spadework::graph::steiner {

namespace {

class RivalSearch {
public:
    RivalSearch(const Network& network, const std::vector<char>& used)
        : network_(network),
          used_(used),
          up_(network.vertex_count(), -1),
          enter_(network.vertex_count(), -1),
          leave_(network.vertex_count(), -1),
          path_of_(network.vertex_count(), -1),
          base_(network.vertex_count(), -1),
          distance_(network.vertex_count(), kFar),
          queue_(network.vertex_count()) {}

    std::vector<KeyPath> run() {
        hang_tree();
        find_key_paths();
        find_nearest();
        lay_bridges();
        std::vector<KeyPath> beaten;
        for (std::size_t p = 0; p < paths_.size(); ++p) {
            if (paths_[p].rival < paths_[p].cost || rival_through_own(static_cast<std::int32_t>(p)) < paths_[p].cost)
                beaten.push_back({paths_[p].bottom, up_[paths_[p].bottom]});
        }
        return beaten;
    }

private:
    struct Path {
        VertexId bottom = 0;
        VertexId top = 0;
        Cost cost = 0;
        Cost rival = kFar;  ///< Cheapest way that stays clear of the path's neighbourhood.
        std::vector<VertexId> inner;
    };
    struct Bridge {
        Cost cost;
        VertexId a;
        VertexId b;
    };

    /// Parents (half edge at the child towards the parent) and depth-first intervals.
    void hang_tree() {
        const VertexId root = network_.terminals().front();
        std::vector<std::pair<VertexId, std::int32_t>> rest{{root, network_.first(root)}};
        std::int32_t clock = 0;
        enter_[root] = clock++;
        order_.push_back(root);
        while (!rest.empty()) {
            auto& [v, h] = rest.back();
            if (h == network_.end(v)) {
                leave_[v] = clock;
                rest.pop_back();
                continue;
            }
            const std::int32_t step = h++;
            const VertexId next = network_.half(step).to;
            if (!used_[step] || enter_[next] >= 0) continue;
            enter_[next] = clock++;
            order_.push_back(next);
            up_[next] = network_.half(step).twin;
            rest.emplace_back(next, network_.first(next));
        }
    }

    [[nodiscard]] bool is_below(VertexId v, VertexId top) const {
        return enter_[v] >= enter_[top] && enter_[v] < leave_[top];
    }

    [[nodiscard]] bool is_key(VertexId v) const {
        if (network_.is_terminal(v)) return true;
        int degree = 0;
        for (std::int32_t h = network_.first(v); h < network_.end(v); ++h)
            degree += used_[h];
        return degree >= 3;
    }

    /// For key vertices path_of_ is the path above, for inner ones the path they are on.
    void find_key_paths() {
        for (const VertexId bottom : order_) {
            if (up_[bottom] < 0 || !is_key(bottom)) continue;
            Path path;
            path.bottom = bottom;
            const auto index = static_cast<std::int32_t>(paths_.size());
            VertexId v = bottom;
            do {
                path_of_[v] = index;
                if (v != bottom) path.inner.push_back(v);
                path.cost += network_.half(up_[v]).cost;
                v = network_.half(up_[v]).to;
            } while (!is_key(v));
            path.top = v;
            paths_.push_back(std::move(path));
        }
    }

    /// To the neighbours of a vertex that are nearer its base than any other.
    void spread_from(VertexId here) {
        for (std::int32_t h = network_.first(here); h < network_.end(here); ++h) {
            const Half& half = network_.half(h);
            const Cost along = distance_[here] + half.cost;
            if (along >= distance_[half.to]) continue;
            distance_[half.to] = along;
            base_[half.to] = base_[here];
            queue_.push_or_lower(half.to, along);
        }
    }

    void find_nearest() {
        for (const VertexId v : order_) {
            base_[v] = v;
            distance_[v] = 0;
            queue_.push_or_lower(v, 0);
        }
        near_.resize(network_.vertex_count());
        while (!queue_.empty()) {
            const VertexId here = queue_.pop();
            near_[base_[here]].push_back(here);
            spread_from(here);
        }
    }

    [[nodiscard]] bool is_inner(VertexId v) const { return path_of_[v] >= 0 && paths_[path_of_[v]].bottom != v; }

    /// The key vertex where the way from `v` to `to` leaves the path that `v` is within.
    [[nodiscard]] VertexId way_out(VertexId v, VertexId to) const {
        if (!is_inner(v)) return v;
        const Path& path = paths_[path_of_[v]];
        return is_below(to, path.bottom) ? path.bottom : path.top;
    }

    void lay_bridges() {
        std::vector<Bridge> bridges;
        for (std::int32_t h = 0; h < network_.half_count(); ++h) {
            const Half& half = network_.half(h);
            if (half.twin < h || used_[h]) continue;
            const VertexId a = base_[half.to];
            const VertexId b = base_[network_.at(h)];
            if (a < 0 || b < 0 || a == b) continue;
            bridges.push_back({distance_[half.to] + half.cost + distance_[network_.at(h)], a, b});
        }
        std::sort(bridges.begin(), bridges.end(), [](const Bridge& x, const Bridge& y) { return x.cost < y.cost; });
        std::vector<VertexId> above(network_.vertex_count());
        for (VertexId v = 0; v < network_.vertex_count(); ++v)
            above[v] = v;
        const auto top_of = [&](VertexId v) {
            while (above[v] != v)
                v = above[v] = above[above[v]];
            return v;
        };
        for (const Bridge& bridge : bridges) {
            if (is_inner(bridge.a) && is_inner(bridge.b) && path_of_[bridge.a] == path_of_[bridge.b]) continue;
            VertexId a = top_of(way_out(bridge.a, bridge.b));
            VertexId b = top_of(way_out(bridge.b, bridge.a));
            while (a != b) {
                // The one that does not lie above the other climbs.
                VertexId& climber = is_below(b, a) ? b : a;
                Path& path = paths_[path_of_[climber]];
                path.rival = bridge.cost;
                above[climber] = path.top;
                climber = top_of(path.top);
            }
        }
    }

    /// The cheapest way across that passes the neighbourhood of the path's inner vertices.
    Cost rival_through_own(std::int32_t p) {
        const Path& path = paths_[p];
        met_.clear();
        for (const VertexId inner : path.inner)
            met_.insert(met_.end(), near_[inner].begin(), near_[inner].end());
        for (const VertexId v : met_)
            saved_.push_back({v, base_[v], distance_[v]});
        for (const VertexId v : met_) {
            base_[v] = -1;
            distance_[v] = kFar;
        }
        for (const VertexId v : met_)
            enter_from_outside(v);
        spread_again();
        const Cost rival = cheapest_crossing(path);
        for (const Saved& s : saved_) {
            base_[s.v] = s.base;
            distance_[s.v] = s.distance;
        }
        saved_.clear();
        return rival;
    }

    void enter_from_outside(VertexId v) {
        for (std::int32_t h = network_.first(v); h < network_.end(v); ++h) {
            const Half& half = network_.half(h);
            if (base_[half.to] < 0 || distance_[half.to] + half.cost >= distance_[v]) continue;
            distance_[v] = distance_[half.to] + half.cost;
            entry_.push_back({v, base_[half.to]});
        }
    }

    void spread_again() {
        for (const auto& [v, base] : entry_) {
            base_[v] = base;  // The last entry of a vertex is its nearest.
            queue_.push_or_lower(v, distance_[v]);
        }
        entry_.clear();
        while (!queue_.empty())
            spread_from(queue_.pop());
    }

    [[nodiscard]] Cost cheapest_crossing(const Path& path) const {
        Cost least = kFar;
        for (const VertexId v : met_) {
            if (base_[v] < 0) continue;
            const bool below = is_below(base_[v], path.bottom);
            for (std::int32_t h = network_.first(v); h < network_.end(v); ++h) {
                const Half& half = network_.half(h);
                if (base_[half.to] < 0 || is_below(base_[half.to], path.bottom) == below) continue;
                // The path itself joins both sides at its own cost, never below it.
                least = std::min(least, distance_[v] + half.cost + distance_[half.to]);
            }
        }
        return least;
    }

    struct Saved {
        VertexId v;
        VertexId base;
        Cost distance;
    };

    const Network& network_;
    const std::vector<char>& used_;
    std::vector<std::int32_t> up_;
    std::vector<std::int32_t> enter_;
    std::vector<std::int32_t> leave_;
    std::vector<VertexId> order_;
    std::vector<std::int32_t> path_of_;
    std::vector<Path> paths_;
    std::vector<VertexId> base_;
    std::vector<Cost> distance_;
    std::vector<std::vector<VertexId>> near_;
    std::vector<VertexId> met_;
    std::vector<Saved> saved_;
    std::vector<std::pair<VertexId, VertexId>> entry_;
    LabelHeap<Cost> queue_;
};

}  // namespace

std::vector<KeyPath> beaten_key_paths(const Network& network, const std::vector<char>& used) {
    return RivalSearch(network, used).run();
}

}  // namespace spadework::graph::steiner
