// Re-walks a plan with code of its own: nothing here is shared with what finds plans.

#include <algorithm>
#include <map>
#include <utility>

#include "graph/ring_figures.hpp"
#include "graph/ring_solver.hpp"
#include "graph/saturating.hpp"

namespace spadework::graph {

namespace {

/// Walks rings, adds up what they pay, and remembers which edges they opened and which stops they reached.
class RingWalker {
public:
    explicit RingWalker(const RingProblem& problem)
        : problem_(problem),
          opened_(problem.edges.size(), 0),
          reached_(problem.stops.size(), 0),
          last_visit_(problem.vertex_count, -1) {}

    bool walk(const RingPlan::Ring& ring) {
        if (ring.hops.empty() || ring.hops.size() > static_cast<std::size_t>(problem_.longest_ring)) return false;
        total += problem_.ring_cost;
        passes_.clear();
        VertexId from = problem_.source;
        for (std::size_t h = 0; h < ring.hops.size(); ++h) {
            const RingPlan::Hop& hop = ring.hops[h];
            if (hop.stop < 0 || static_cast<std::size_t>(hop.stop) >= reached_.size() || reached_[hop.stop]) {
                return false;
            }
            reached_[hop.stop] = 1;
            if (!walk(from, hop.path, problem_.stops[hop.stop], h)) return false;
            from = problem_.stops[hop.stop];
        }
        return walk(problem_.source, ring.back, from, ring.hops.size()) && keeps_rule(ring);
    }

    [[nodiscard]] bool all_reached() const {
        return std::all_of(reached_.begin(), reached_.end(), [](char r) { return r != 0; });
    }

    WideCost total = 0;

private:
    /// False when the path does not lead to `to`, passes a vertex twice, or is too long for a hop.
    bool walk(VertexId from, const std::vector<EdgeId>& path, VertexId to, std::size_t hop) {
        last_visit_[from] = ++visit_;
        Length length = 0;
        for (const EdgeId id : path) {
            if (id < 0 || static_cast<std::size_t>(id) >= problem_.edges.size()) return false;
            const SharedCostEdge& edge = problem_.edges[id];
            if (edge.tail != from && edge.head != from) return false;
            from = edge.tail == from ? edge.head : edge.tail;
            if (last_visit_[from] == visit_) return false;
            last_visit_[from] = visit_;
            total += static_cast<WideCost>(problem_.weight) * edge.length;
            total += static_cast<WideCost>(problem_.multiplicity) * edge.passage;
            if (!opened_[id]) total += edge.opening;
            opened_[id] = 1;
            if (!problem_.span_of.empty()) length += problem_.span_of[id];
            auto& span = passes_.try_emplace(problem_.cut_of[id], hop, hop).first->second;
            span.second = hop;
        }
        return from == to && (problem_.span_of.empty() || length <= problem_.longest_hop);
    }

    /// Whether every stop that a cut takes down has no way round on the map either.
    bool keeps_rule(const RingPlan::Ring& ring) {
        for (const auto& [cut, span] : passes_) {
            if (span.first == span.second) continue;
            const std::vector<char>& joined = joined_without(cut);
            for (std::size_t h = span.first; h < span.second; ++h) {
                if (joined[problem_.stops[ring.hops[h].stop]]) return false;
            }
        }
        return true;
    }

    const std::vector<char>& joined_without(std::int32_t cut) {
        const auto [entry, fresh] = joined_without_.try_emplace(cut, std::vector<char>(problem_.vertex_count, 0));
        std::vector<char>& joined = entry->second;
        if (!fresh) return joined;
        if (steps_.empty()) list_steps();
        std::vector<VertexId> waiting{problem_.source};
        joined[problem_.source] = 1;
        while (!waiting.empty()) {
            const VertexId at = waiting.back();
            waiting.pop_back();
            for (const auto& [to, by] : steps_[at]) {
                if (by == cut || joined[to]) continue;
                joined[to] = 1;
                waiting.push_back(to);
            }
        }
        return joined;
    }

    void list_steps() {
        steps_.resize(problem_.vertex_count);
        for (std::size_t e = 0; e < problem_.edges.size(); ++e) {
            const SharedCostEdge& edge = problem_.edges[e];
            steps_[edge.tail].emplace_back(edge.head, problem_.cut_of[e]);
            steps_[edge.head].emplace_back(edge.tail, problem_.cut_of[e]);
        }
    }

    const RingProblem& problem_;
    std::vector<char> opened_;
    std::vector<char> reached_;
    std::vector<std::int32_t> last_visit_;
    std::int32_t visit_ = -1;
    std::map<std::int32_t, std::pair<std::size_t, std::size_t>> passes_;  ///< By cut: first and last hop over it.
    std::map<std::int32_t, std::vector<char>> joined_without_;            ///< By cut: vertices it leaves the source.
    std::vector<std::vector<std::pair<VertexId, std::int32_t>>> steps_;
};

}  // namespace

std::optional<Cost> cost_of(const RingProblem& problem, const RingPlan& plan) {
    if (!rings::well_formed(problem)) return std::nullopt;
    RingWalker walker(problem);
    for (const RingPlan::Ring& ring : plan.rings) {
        if (!walker.walk(ring)) return std::nullopt;
    }
    if (!walker.all_reached()) return std::nullopt;
    return saturated(walker.total);
}

}  // namespace spadework::graph
