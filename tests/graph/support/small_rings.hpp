#pragma once

// Random small ring problems and their optimum by separate simple code: every order of the stops, every way to cut it
// into rings, every simple path for every hop.

#include <algorithm>
#include <functional>
#include <limits>
#include <map>
#include <random>
#include <set>
#include <utility>
#include <vector>

#include "graph/ring_problem.hpp"

namespace spadework::graph::testing::rings {

constexpr Cost kNever = std::numeric_limits<Cost>::max() / 4;

struct Family {
    VertexId vertices = 6;
    std::int32_t cuts = 9;
    std::int32_t stops = 3;
    bool passages = false;
    bool second_ways = false;  ///< Some cuts with two edges.
    Cost largest_opening = 40;
    Length longest_hop = 0;  ///< Hops may span so much at the most, cuts up to 9 each; 0 for hops of any length.
};

inline void limit_hops(std::mt19937& random, const Family& family, RingProblem& p) {
    std::map<std::int32_t, Length> spans;
    for (const std::int32_t cut : p.cut_of)
        spans.try_emplace(cut, static_cast<Length>(random() % 10));
    for (const std::int32_t cut : p.cut_of)
        p.span_of.push_back(spans.at(cut));
    p.longest_hop = family.longest_hop;
}

inline RingProblem random_problem(std::mt19937& random, const Family& family) {
    const auto below = [&](Cost n) { return static_cast<Cost>(random() % static_cast<std::uint32_t>(n)); };
    RingProblem p;
    p.vertex_count = family.vertices;
    for (std::int32_t cut = 0; cut < family.cuts; ++cut) {
        SharedCostEdge edge;
        edge.tail = cut + 1 < family.vertices ? cut + 1 : static_cast<VertexId>(below(family.vertices));
        edge.head = static_cast<VertexId>(cut + 1 < family.vertices ? below(cut + 1) : below(family.vertices));
        for (int way = 0; way < (family.second_ways && below(3) == 0 ? 2 : 1); ++way) {
            edge.opening = below(family.largest_opening + 1);
            edge.length = below(10);
            edge.passage = family.passages ? below(8) : 0;
            p.edges.push_back(edge);
            p.cut_of.push_back(cut);
            std::swap(edge.tail, edge.head);
        }
    }
    p.source = static_cast<VertexId>(below(family.vertices));
    for (std::int32_t s = 0; s < family.stops; ++s)
        p.stops.push_back(static_cast<VertexId>(below(family.vertices)));
    p.weight = below(4);
    p.multiplicity = below(3);
    p.ring_cost = below(30);
    p.longest_ring = 1 + static_cast<std::int32_t>(below(family.stops));
    if (family.longest_hop > 0) limit_hops(random, family, p);
    return p;
}

/// Vertices with a way to the source without one cut (-1: with all).
inline std::set<VertexId> joined_without(const RingProblem& p, std::int32_t cut) {
    std::set<VertexId> joined{p.source};
    for (bool again = true; again;) {
        again = false;
        for (std::size_t e = 0; e < p.edges.size(); ++e) {
            if (p.cut_of[e] == cut || joined.contains(p.edges[e].tail) == joined.contains(p.edges[e].head)) continue;
            joined.insert({p.edges[e].tail, p.edges[e].head});
            again = true;
        }
    }
    return joined;
}

inline bool short_enough(const RingProblem& p, const std::vector<EdgeId>& path) {
    Length span = 0;
    for (const EdgeId e : path)
        span += p.span_of.empty() ? 0 : p.span_of[e];
    return span <= p.longest_hop || p.span_of.empty();
}

using Paths = std::vector<std::vector<EdgeId>>;

/// Every simple path between two vertices that is no longer than a hop may be.
inline Paths all_paths(const RingProblem& p, VertexId from, VertexId to) {
    Paths found;
    std::vector<EdgeId> path;
    std::set<VertexId> passed{from};
    const std::function<void(VertexId)> walk = [&](VertexId at) {
        if (at == to) {
            if (short_enough(p, path)) found.push_back(path);
            return;
        }
        for (std::size_t e = 0; e < p.edges.size(); ++e) {
            if (p.edges[e].tail != at && p.edges[e].head != at) continue;
            const VertexId next = p.edges[e].tail == at ? p.edges[e].head : p.edges[e].tail;
            if (!passed.insert(next).second) continue;
            path.push_back(static_cast<EdgeId>(e));
            walk(next);
            path.pop_back();
            passed.erase(next);
        }
    };
    walk(from);
    return found;
}

class Exhaustive {
public:
    explicit Exhaustive(const RingProblem& p) : p_(p) {
        for (std::int32_t cut = -1; cut <= *std::max_element(p.cut_of.begin(), p.cut_of.end()); ++cut)
            joined_[cut] = joined_without(p, cut);
        uses_.assign(p.edges.size(), 0);
    }

    /// kNever where there is no plan.
    Cost run() {
        std::vector<char> seen(p_.stops.size(), 0);
        go_on(seen, p_.source, 0);
        return best_;
    }

private:
    const Paths& paths(VertexId from, VertexId to) {
        const auto [entry, fresh] = paths_.try_emplace({from, to});
        if (fresh) entry->second = all_paths(p_, from, to);
        return entry->second;
    }

    /// Lays a hop when the ring may pass its cuts, goes on, and takes it up again.
    void lay(VertexId from, VertexId to, const std::function<void()>& then) {
        for (const auto& path : paths(from, to)) {
            const Cost before = cost_;
            ring_.push_back(path);
            bool allowed = true;
            for (const EdgeId e : path) {
                cost_ += p_.weight * p_.edges[e].length + p_.multiplicity * p_.edges[e].passage;
                if (uses_[e]++ == 0) cost_ += p_.edges[e].opening;
                allowed = allowed && may_pass(p_.cut_of[e]);
            }
            if (allowed && cost_ < best_) then();
            for (const EdgeId e : path)
                --uses_[e];
            ring_.pop_back();
            cost_ = before;
        }
    }

    /// Where the ring has passed the cut before, the stops visited since must be lost on the map as well. (Those of
    /// the hops so far: the stops in between.)
    bool may_pass(std::int32_t cut) const {
        for (std::size_t hop = 0; hop + 1 < ring_.size(); ++hop) {
            const bool passes =
                std::any_of(ring_[hop].begin(), ring_[hop].end(), [&](EdgeId e) { return p_.cut_of[e] == cut; });
            if (!passes) continue;
            for (std::size_t i = hop; i + 1 < ring_.size(); ++i) {
                if (joined_.at(cut).contains(p_.stops[visited_[i]])) return false;
            }
        }
        return true;
    }

    void go_on(std::vector<char>& seen, VertexId at, std::int32_t in_ring) {
        if (in_ring > 0) {
            lay(at, p_.source, [&] {
                const auto ring = std::move(ring_);
                const auto visited = std::move(visited_);
                ring_.clear();
                visited_.clear();
                if (std::find(seen.begin(), seen.end(), 0) == seen.end()) {
                    best_ = std::min(best_, cost_);
                } else {
                    go_on(seen, p_.source, 0);
                }
                ring_ = ring;
                visited_ = visited;
            });
        }
        if (in_ring == p_.longest_ring) return;
        if (in_ring == 0) cost_ += p_.ring_cost;
        for (std::size_t s = 0; s < seen.size(); ++s) {
            if (seen[s]) continue;
            seen[s] = 1;
            lay(at, p_.stops[s], [&] {
                visited_.push_back(s);
                go_on(seen, p_.stops[s], in_ring + 1);
                visited_.pop_back();
            });
            seen[s] = 0;
        }
        if (in_ring == 0) cost_ -= p_.ring_cost;
    }

    const RingProblem& p_;
    std::map<std::int32_t, std::set<VertexId>> joined_;
    std::map<std::pair<VertexId, VertexId>, Paths> paths_;
    std::vector<int> uses_;
    std::vector<std::vector<EdgeId>> ring_;
    std::vector<std::size_t> visited_;
    Cost cost_ = 0;
    Cost best_ = kNever;
};

}  // namespace spadework::graph::testing::rings
