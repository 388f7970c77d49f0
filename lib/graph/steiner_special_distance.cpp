#include "graph/steiner_special_distance.hpp"

#include <algorithm>
#include <queue>
#include <tuple>

namespace spadework::graph::steiner {

namespace {

struct Arrival {
    Cost distance;
    VertexId at;
    VertexId terminal;
    std::int32_t towards;
    bool operator>(const Arrival& other) const {
        return std::tie(distance, at, terminal) > std::tie(other.distance, other.at, other.terminal);
    }
};

struct Boundary {
    Cost length;
    VertexId a;
    VertexId b;
    bool operator<(const Boundary& other) const {
        return std::tie(length, a, b) < std::tie(other.length, other.a, other.b);
    }
};

VertexId top_of(std::vector<VertexId>& above, VertexId v) {
    while (above[v] != v)
        v = above[v] = above[above[v]];
    return v;
}

}  // namespace

NearTerminals::NearTerminals(const Network& network, int most)
    : most_(most), near_(static_cast<std::size_t>(network.vertex_count()) * kMost) {
    std::priority_queue<Arrival, std::vector<Arrival>, std::greater<>> queue;
    // A terminal is the nearest to itself, others at no distance notwithstanding.
    for (const VertexId t : network.terminals()) {
        near_[t * kMost] = {t, 0, -1};
        queue.push({0, t, t, -1});
    }
    while (!queue.empty()) {
        const Arrival here = queue.top();
        queue.pop();
        if (here.at != here.terminal && !take(here.at, {here.terminal, here.distance, here.towards})) continue;
        if (network.is_terminal(here.at) && here.at != here.terminal) continue;
        for (std::int32_t h = network.first(here.at); h < network.end(here.at); ++h) {
            const Half& half = network.half(h);
            const NearTerminal& last = near_[half.to * kMost + most_ - 1];
            if (last.terminal >= 0) continue;
            queue.push({here.distance + half.cost, half.to, here.terminal, half.twin});
        }
    }
}

bool NearTerminals::take(VertexId v, const NearTerminal& found) {
    NearTerminal* known = &near_[v * kMost];
    int i = 0;
    while (i < most_ && known[i].terminal >= 0 && known[i].terminal != found.terminal)
        ++i;
    if (i == most_ || known[i].terminal >= 0) return false;
    known[i] = found;
    return true;
}

TerminalBottlenecks::TerminalBottlenecks(const Network& network, const NearTerminals& near)
    : link_(network.vertex_count()) {
    std::vector<Boundary> boundaries;
    for (VertexId v = 0; v < network.vertex_count(); ++v) {
        for (std::int32_t h = network.first(v); h < network.end(v); ++h) {
            const NearTerminal& a = near.of(v, 0);
            const NearTerminal& b = near.of(network.half(h).to, 0);
            if (a.terminal < 0 || b.terminal < 0 || a.terminal >= b.terminal) continue;
            boundaries.push_back({a.distance + network.half(h).cost + b.distance, a.terminal, b.terminal});
        }
    }
    std::sort(boundaries.begin(), boundaries.end());
    // Sets joined smaller under larger and links kept as made: lengths never fall towards the top.
    std::vector<VertexId> above(network.vertex_count());
    std::vector<std::int32_t> size(network.vertex_count(), 1);
    for (VertexId v = 0; v < network.vertex_count(); ++v)
        above[v] = v;
    for (const Boundary& boundary : boundaries) {
        VertexId a = top_of(above, boundary.a);
        VertexId b = top_of(above, boundary.b);
        if (a == b) continue;
        if (size[a] > size[b]) std::swap(a, b);
        above[a] = b;
        size[b] += size[a];
        link_[a] = {b, boundary.length};
    }
}

Cost TerminalBottlenecks::between(VertexId a, VertexId b) const {
    Cost longest = 0;
    while (a != b) {
        VertexId& lower = link_[a].length <= link_[b].length ? a : b;
        longest = link_[lower].length;
        if (link_[lower].up < 0) return kFar;
        lower = link_[lower].up;
    }
    return longest;
}

Cost SpecialDistances::at_most(VertexId u, VertexId v, Cost enough) const {
    Cost best = kFar;
    for (int i = 0; i < near_.most(); ++i) {
        const NearTerminal& a = near_.of(u, i);
        if (a.terminal < 0 || a.distance >= std::min(best, enough)) break;
        for (int j = 0; j < near_.most(); ++j) {
            const NearTerminal& b = near_.of(v, j);
            if (b.terminal < 0 || b.distance >= std::min(best, enough)) break;
            const Cost middle = a.terminal == b.terminal ? 0 : bottlenecks_.between(a.terminal, b.terminal);
            // Where the terminal is the same the way is cut there too.
            best = std::min(best, std::max({a.distance, middle, b.distance}));
            if (best < enough) return best;
        }
    }
    return best;
}

void NearbySearch::run(VertexId from, VertexId barred, Cost limit, int most_settled) {
    for (const VertexId v : met_)
        label_[v] = kFar;
    met_.assign(1, from);
    queue_.clear();
    label_[from] = 0;
    queue_.push_or_lower(from, 0);
    for (int settled = 0; !queue_.empty() && settled < most_settled; ++settled) {
        const VertexId here = queue_.pop();
        for (std::int32_t h = network_.first(here); h < network_.end(here); ++h) {
            const Half& half = network_.half(h);
            const Cost along = label_[here] + half.cost;
            if (along >= limit || along >= label_[half.to] || half.to == barred) continue;
            if (label_[half.to] == kFar) met_.push_back(half.to);
            label_[half.to] = along;
            queue_.push_or_lower(half.to, along);
        }
    }
}

}  // namespace spadework::graph::steiner
