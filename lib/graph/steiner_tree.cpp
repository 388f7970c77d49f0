#include "graph/steiner_tree.hpp"

#include <algorithm>

#include "graph/label_heap.hpp"

namespace spadework::graph::steiner {

namespace {

/// Prim's algorithm over the marked vertices.
std::vector<std::int32_t> spanning_halves(const Network& network, const std::vector<char>& in_tree, VertexId start) {
    std::vector<Cost> label(network.vertex_count(), kFar);
    std::vector<std::int32_t> by(network.vertex_count(), -1);
    std::vector<char> done(network.vertex_count(), 0);
    std::vector<std::int32_t> tree;
    LabelHeap<Cost> queue(network.vertex_count());
    label[start] = 0;
    queue.push_or_lower(start, 0);
    while (!queue.empty()) {
        const VertexId here = queue.pop();
        done[here] = 1;
        if (by[here] >= 0) tree.push_back(by[here]);
        for (std::int32_t h = network.first(here); h < network.end(here); ++h) {
            const Half& half = network.half(h);
            if (!in_tree[half.to] || done[half.to] || half.cost >= label[half.to]) continue;
            label[half.to] = half.cost;
            by[half.to] = h;
            queue.push_or_lower(half.to, half.cost);
        }
    }
    return tree;
}

/// Marks the vertices that the given edges join to the start.
std::vector<char> reached_by(const Network& network, const std::vector<std::int32_t>& halves, VertexId start) {
    std::vector<char> used(network.half_count(), 0);
    for (const std::int32_t h : halves)
        used[h] = used[network.half(h).twin] = 1;
    std::vector<char> reached(network.vertex_count(), 0);
    reached[start] = 1;
    std::vector<VertexId> rest{start};
    while (!rest.empty()) {
        const VertexId here = rest.back();
        rest.pop_back();
        for (std::int32_t h = network.first(here); h < network.end(here); ++h) {
            const VertexId next = network.half(h).to;
            if (!used[h] || reached[next]) continue;
            reached[next] = 1;
            rest.push_back(next);
        }
    }
    return reached;
}

/// Takes off leaves that are no terminals. Halves are in an order where each leads to a vertex not met before.
void prune(const Network& network, std::vector<std::int32_t>& halves) {
    std::vector<std::int32_t> degree(network.vertex_count(), 0);
    for (const std::int32_t h : halves) {
        ++degree[network.half(h).to];
        ++degree[network.at(h)];
    }
    std::vector<std::int32_t> kept;
    for (std::size_t i = halves.size(); i-- > 0;) {
        const VertexId outer = network.half(halves[i]).to;
        if (degree[outer] == 1 && !network.is_terminal(outer)) {
            --degree[network.at(halves[i])];
        } else {
            kept.push_back(halves[i]);
        }
    }
    std::reverse(kept.begin(), kept.end());
    halves = std::move(kept);
}

class NearestJoining {
public:
    NearestJoining(const Network& network, const std::vector<Cost>& lengths)
        : network_(network),
          lengths_(lengths),
          label_(network.vertex_count(), kFar),
          by_(network.vertex_count(), -1),
          joined_(network.vertex_count(), 0),
          queue_(network.vertex_count()) {}

    std::optional<Tree> run(VertexId start) && {
        std::size_t left = network_.terminals().size() - (network_.is_terminal(start) ? 1 : 0);
        join(start);
        while (left > 0) {
            if (queue_.empty()) return std::nullopt;
            const VertexId here = queue_.pop();
            if (network_.is_terminal(here) && !joined_[here]) {
                join_back(here);
                --left;
                continue;
            }
            spread(here);
        }
        if (halves_.empty()) return Tree{};
        return tidied(network_, halves_);
    }

private:
    void join(VertexId v) {
        joined_[v] = 1;
        label_[v] = 0;
        queue_.push_or_lower(v, 0);
    }

    void join_back(VertexId v) {
        while (!joined_[v]) {
            const std::int32_t h = by_[v];
            halves_.push_back(h);
            join(v);
            v = network_.at(h);
        }
    }

    void spread(VertexId here) {
        for (std::int32_t h = network_.first(here); h < network_.end(here); ++h) {
            const Half& half = network_.half(h);
            // The arc from here to the other end is the one that the other end's half edge stands for.
            if (joined_[half.to] || lengths_[half.twin] >= kFar) continue;
            const Cost along = label_[here] + lengths_[half.twin];
            if (along >= label_[half.to]) continue;
            label_[half.to] = along;
            by_[half.to] = h;
            queue_.push_or_lower(half.to, along);
        }
    }

    const Network& network_;
    const std::vector<Cost>& lengths_;
    std::vector<Cost> label_;
    std::vector<std::int32_t> by_;
    std::vector<char> joined_;
    std::vector<std::int32_t> halves_;
    LabelHeap<Cost> queue_;
};

}  // namespace

std::optional<Tree> joined_by_nearest(const Network& network, VertexId start, const std::vector<Cost>& lengths) {
    return NearestJoining(network, lengths).run(start);
}

Tree tidied(const Network& network, const std::vector<std::int32_t>& halves) {
    Tree tree;
    if (halves.empty()) return tree;
    const VertexId start = network.terminals().front();
    tree.halves = spanning_halves(network, reached_by(network, halves, start), start);
    prune(network, tree.halves);
    for (const std::int32_t h : tree.halves)
        tree.cost += network.half(h).cost;
    return tree;
}

}  // namespace spadework::graph::steiner
