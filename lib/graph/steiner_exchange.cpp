#include <algorithm>

#include "graph/label_heap.hpp"
#include "graph/steiner_rivals.hpp"
#include "graph/steiner_tree.hpp"

namespace spadework::graph::steiner {

namespace {

/// A tree in pieces: key paths are cut out and ways across are found between the parts.
class Exchange {
public:
    Exchange(const Network& network, const Tree& tree)
        : network_(network),
          used_(network.half_count(), 0),
          degree_(network.vertex_count(), 0),
          side_(network.vertex_count(), 0),
          tried_(network.vertex_count(), 0),
          label_(network.vertex_count(), kFar),
          by_(network.vertex_count(), -1),
          queue_(network.vertex_count()) {
        for (const std::int32_t h : tree.halves)
            use(h);
    }

    void improve(const std::function<bool()>& stop) {
        for (bool better = true; better;) {
            better = false;
            for (const KeyPath& path : beaten_key_paths(network_, used_)) {
                if (stop && stop()) return;
                if (used_[path.start] && is_key(path.from) && exchange_path(path.from, path.start)) better = true;
            }
            if (better) continue;
            for (VertexId v = 0; v < network_.vertex_count(); ++v) {
                if (tried_[v] || !is_key(v) || network_.is_terminal(v) || degree_[v] > kMostArms) continue;
                if (stop && stop()) return;
                tried_[v] = 1;
                if (take_out(v)) better = true;
            }
        }
    }

    [[nodiscard]] Tree tree() const {
        Tree result;
        for (std::int32_t h = 0; h < network_.half_count(); ++h) {
            if (!used_[h] || network_.half(h).twin < h) continue;
            result.halves.push_back(h);
            result.cost += network_.half(h).cost;
        }
        return result;
    }

private:
    static constexpr std::int32_t kMostArms = 5;

    [[nodiscard]] bool is_key(VertexId v) const {
        return degree_[v] > 0 && (network_.is_terminal(v) || degree_[v] >= 3);
    }

    void use(std::int32_t h) { set_used(h, 1); }
    void set_used(std::int32_t h, char used) {
        used_[h] = used_[network_.half(h).twin] = used;
        const std::int32_t change = used ? 1 : -1;
        degree_[network_.half(h).to] += change;
        degree_[network_.at(h)] += change;
    }

    /// Cuts the key path that starts with `h` out; returns its cost, and its far end in `end`.
    Cost cut(std::int32_t h, VertexId& end) {
        std::vector<std::int32_t> path{h};
        VertexId here = network_.half(h).to;
        while (!is_key(here)) {
            std::int32_t next = network_.first(here);
            while (!used_[next] || next == network_.half(path.back()).twin)
                ++next;
            path.push_back(next);
            here = network_.half(next).to;
        }
        end = here;
        Cost cost = 0;
        for (const std::int32_t step : path) {
            set_used(step, 0);
            cost += network_.half(step).cost;
            removed_.push_back(step);
        }
        return cost;
    }

    bool exchange_path(VertexId from, std::int32_t h) {
        removed_.clear();
        added_.clear();
        VertexId end = from;
        const Cost old_cost = cut(h, end);
        const Cost cost = join(smaller_part(from, end), old_cost);
        return cost < old_cost ? settle() : undo();
    }

    bool take_out(VertexId v) {
        removed_.clear();
        added_.clear();
        std::vector<VertexId> ends;
        Cost old_cost = 0;
        for (std::int32_t h = network_.first(v); h < network_.end(v); ++h) {
            if (!used_[h]) continue;
            ends.push_back(v);
            old_cost += cut(h, ends.back());
        }
        Cost cost = 0;
        for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
            // Ends that an earlier way joined already need no other; the count of ways stays the same.
            cost += join(smallest_open_part(ends), old_cost - cost);
            if (cost >= old_cost) return undo();
        }
        return settle();
    }

    /// Forks that a change passed may be worth taking out now.
    bool settle() {
        for (const auto* halves : {&removed_, &added_}) {
            for (const std::int32_t h : *halves)
                tried_[network_.half(h).to] = tried_[network_.at(h)] = 0;
        }
        return true;
    }

    bool undo() {
        for (const std::int32_t h : added_)
            set_used(h, 0);
        for (const std::int32_t h : removed_)
            set_used(h, 1);
        return false;
    }

    /// The vertices that hang together with `start`, as far as `most`.
    std::vector<VertexId> part_of(VertexId start, std::size_t most) {
        std::vector<VertexId> part{start};
        ++side_stamp_;
        side_[start] = side_stamp_;
        for (std::size_t i = 0; i < part.size() && part.size() <= most; ++i) {
            for (std::int32_t h = network_.first(part[i]); h < network_.end(part[i]); ++h) {
                const VertexId next = network_.half(h).to;
                if (!used_[h] || side_[next] == side_stamp_) continue;
                side_[next] = side_stamp_;
                part.push_back(next);
            }
        }
        return part;
    }

    std::vector<VertexId> smaller_part(VertexId a, VertexId b) { return smallest_open_part({a, b}); }

    /// The smallest of the parts that the vertices are in, within a factor of two.
    std::vector<VertexId> smallest_open_part(const std::vector<VertexId>& starts) {
        for (std::size_t most = 32;; most *= 2) {
            for (const VertexId start : starts) {
                std::vector<VertexId> part = part_of(start, most);
                if (part.size() <= most) return part;
            }
        }
    }

    /// Adds the cheapest way from the part (marked by the latest stamp) to the rest of the tree when it costs less than
    /// the limit; returns its cost, or the limit.
    Cost join(const std::vector<VertexId>& part, Cost limit) {
        for (const VertexId v : part)
            meet(v, 0, -1);
        Cost cost = limit;
        while (!queue_.empty() && queue_.top_key() < limit) {
            const VertexId here = queue_.pop();
            if (side_[here] != side_stamp_ && in_tree(here)) {
                cost = label_[here];
                for (VertexId v = here; by_[v] >= 0; v = network_.at(by_[v])) {
                    added_.push_back(by_[v]);
                }
                break;
            }
            for (std::int32_t h = network_.first(here); h < network_.end(here); ++h) {
                const Half& half = network_.half(h);
                if (side_[half.to] == side_stamp_ || label_[here] + half.cost >= limit) continue;
                meet(half.to, label_[here] + half.cost, h);
            }
        }
        if (cost < limit) use_last_way();
        for (const VertexId v : met_)
            label_[v] = kFar;
        met_.clear();
        queue_.clear();
        return cost;
    }

    void use_last_way() {
        for (std::size_t i = added_.size(); i-- > 0;) {
            if (used_[added_[i]]) break;
            use(added_[i]);
        }
    }

    /// Vertices in no part carry no edges; a lone terminal or a cut-off end does not either, but is one to join.
    [[nodiscard]] bool in_tree(VertexId v) const { return degree_[v] > 0 || network_.is_terminal(v); }

    void meet(VertexId v, Cost label, std::int32_t by) {
        if (label >= label_[v]) return;
        if (label_[v] == kFar) met_.push_back(v);
        label_[v] = label;
        by_[v] = by;
        queue_.push_or_lower(v, label);
    }

    const Network& network_;
    std::vector<char> used_;
    std::vector<std::int32_t> degree_;
    std::vector<std::int32_t> side_;
    std::vector<char> tried_;  ///< Forks that need not be taken out.
    std::int32_t side_stamp_ = 0;
    std::vector<Cost> label_;
    std::vector<std::int32_t> by_;
    std::vector<VertexId> met_;
    std::vector<std::int32_t> removed_;
    std::vector<std::int32_t> added_;
    LabelHeap<Cost> queue_;
};

}  // namespace

void exchange_paths(const Network& network, Tree& tree, const std::function<bool()>& stop) {
    if (tree.halves.empty()) return;
    Exchange exchange(network, tree);
    exchange.improve(stop);
    Tree better = exchange.tree();
    if (better.cost < tree.cost) tree = tidied(network, better.halves);
}

}  // namespace spadework::graph::steiner
