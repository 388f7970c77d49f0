#include "graph/ring_bridges.hpp"

#include <utility>

#include "graph/adjacency.hpp"

namespace spadework::graph::rings {

namespace {

/// Trees that join all that is joined, by breadth, and which of their cuts some cut outside them goes round.
class GoneRound {
public:
    explicit GoneRound(const RingProblem& problem)
        : problem_(problem), parent_(problem.vertex_count, -1), by_(problem.vertex_count, -1) {
        const Adjacency steps(problem.vertex_count, problem.edges);
        depth_.assign(problem.vertex_count, -1);
        for (VertexId root = 0; root < problem.vertex_count; ++root) {
            if (depth_[root] >= 0) continue;
            depth_[root] = 0;
            grow(root, steps);
        }
        for (VertexId v = 0; v < problem.vertex_count; ++v)
            top_.push_back(v);
        for (std::size_t e = 0; e < problem.edges.size(); ++e)
            go_round(problem.edges[e], problem.cut_of[e]);
    }

    /// Whether nothing goes round the cut that leads to the vertex from its parent.
    [[nodiscard]] bool alone(VertexId below) { return parent_[below] >= 0 && top(below) == below; }
    [[nodiscard]] VertexId lower_end(const SharedCostEdge& edge) const {
        return depth_[edge.tail] > depth_[edge.head] ? edge.tail : edge.head;
    }
    [[nodiscard]] std::int32_t cut_above(VertexId v) const { return by_[v]; }

private:
    void grow(VertexId root, const Adjacency& steps) {
        std::vector<VertexId> waiting{root};
        for (std::size_t i = 0; i < waiting.size(); ++i) {
            const VertexId here = waiting[i];
            for (const Step& step : steps.from(here)) {
                if (depth_[step.to] >= 0) continue;
                depth_[step.to] = depth_[here] + 1;
                parent_[step.to] = here;
                by_[step.to] = problem_.cut_of[step.edge];
                waiting.push_back(step.to);
            }
        }
    }

    /// The highest vertex that is joined to this one by tree cuts gone round.
    VertexId top(VertexId v) {
        while (top_[v] != v) {
            top_[v] = top_[top_[v]];
            v = top_[v];
        }
        return v;
    }

    void go_round(const SharedCostEdge& edge, std::int32_t cut) {
        if (by_[lower_end(edge)] == cut) return;
        VertexId a = top(edge.tail);
        VertexId b = top(edge.head);
        while (a != b) {
            if (depth_[a] < depth_[b]) std::swap(a, b);
            top_[a] = parent_[a];
            a = top(a);
        }
    }

    const RingProblem& problem_;
    std::vector<VertexId> parent_;
    std::vector<std::int32_t> by_;  ///< By vertex the cut to its parent.
    std::vector<std::int32_t> depth_;
    std::vector<VertexId> top_;
};

}  // namespace

std::vector<char> bridges_of(const RingProblem& problem) {
    GoneRound round(problem);
    std::vector<char> bridges;
    for (std::size_t e = 0; e < problem.edges.size(); ++e) {
        const VertexId below = round.lower_end(problem.edges[e]);
        bridges.push_back(round.cut_above(below) == problem.cut_of[e] && round.alone(below) ? 1 : 0);
    }
    return bridges;
}

}  // namespace spadework::graph::rings
