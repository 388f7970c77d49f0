// Re-walks a plan with code of its own: nothing here is shared with what finds plans.

#include <algorithm>

#include "graph/chain_figures.hpp"
#include "graph/chain_solver.hpp"
#include "graph/saturating.hpp"

namespace spadework::graph {

namespace {

/// Walks hops, adds up what they pay, and remembers which edges they opened and which stops they reached.
class HopWalker {
public:
    explicit HopWalker(const ChainProblem& problem)
        : problem_(problem),
          opened_(problem.edges.size(), 0),
          last_visit_(problem.vertex_count, -1),
          reached_(problem.stops.size(), 0) {}

    /// False when the hop does not lead to a stop not reached before, passes a vertex twice, or is too long.
    bool walk(VertexId from, const ChainPlan::Hop& hop) {
        if (hop.stop < 0 || static_cast<std::size_t>(hop.stop) >= reached_.size() || reached_[hop.stop]) return false;
        reached_[hop.stop] = 1;
        last_visit_[from] = ++visit_;
        Length length = 0;
        for (const EdgeId id : hop.path) {
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
        }
        return from == problem_.stops[hop.stop] && (problem_.span_of.empty() || length <= problem_.longest_hop);
    }

    [[nodiscard]] bool all_reached() const {
        return std::all_of(reached_.begin(), reached_.end(), [](char r) { return r != 0; });
    }

    WideCost total = 0;

private:
    const ChainProblem& problem_;
    std::vector<char> opened_;
    std::vector<std::int32_t> last_visit_;
    std::vector<char> reached_;
    std::int32_t visit_ = -1;
};

}  // namespace

std::optional<Cost> cost_of(const ChainProblem& problem, const ChainPlan& plan) {
    if (!chains::well_formed(problem)) return std::nullopt;
    HopWalker walker(problem);
    for (const auto& chain : plan.chains) {
        if (chain.empty() || chain.size() > static_cast<std::size_t>(problem.longest_chain)) return std::nullopt;
        walker.total += problem.chain_cost;
        walker.total -= problem.end_saving;
        VertexId from = problem.source;
        for (const ChainPlan::Hop& hop : chain) {
            if (!walker.walk(from, hop)) return std::nullopt;
            from = problem.stops[hop.stop];
        }
    }
    if (!walker.all_reached()) return std::nullopt;
    return saturated(walker.total);
}

}  // namespace spadework::graph
