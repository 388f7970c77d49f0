#include "graph/chain_forks.hpp"

#include <algorithm>

#include "graph/chain_figures.hpp"

namespace spadework::graph::chains {

namespace {

/// Joins edges two at a time at vertices where nothing forks.
class Joiner {
public:
    explicit Joiner(const ChainProblem& problem)
        : at_(static_cast<std::size_t>(problem.vertex_count)),
          kept_(static_cast<std::size_t>(problem.vertex_count), 0) {
        kept_[problem.source] = 1;
        for (const VertexId stop : problem.stops)
            kept_[stop] = 1;
        for (std::size_t e = 0; e < problem.edges.size(); ++e) {
            const SharedCostEdge& edge = problem.edges[e];
            if (edge.tail == edge.head) continue;
            add({edge.tail,
                 edge.head,
                 static_cast<double>(edge.opening),
                 static_cast<double>(hop_charge(problem).on(edge)),
                 {static_cast<ArcId>(2 * e)}});
        }
    }

    void run() {
        for (VertexId v = 0; v < static_cast<VertexId>(at_.size()); ++v)
            waiting_.push_back(v);
        while (!waiting_.empty()) {
            const VertexId v = waiting_.back();
            waiting_.pop_back();
            if (kept_[v]) continue;
            if (at_[v].size() == 1) {
                remove(at_[v].front());
            } else if (at_[v].size() == 2) {
                join_at(v);
            }
        }
    }

    ForkNetwork network(const ChainProblem& problem) {
        ForkNetwork forks;
        std::vector<VertexId> number(at_.size(), -1);
        for (std::size_t v = 0; v < at_.size(); ++v) {
            if (kept_[v] || !at_[v].empty()) number[v] = forks.vertex_count++;
        }
        std::vector<SharedCostEdge> plain;
        for (std::size_t e = 0; e < edges_.size(); ++e) {
            if (!alive_[e]) continue;
            JoinedEdge& edge = edges_[e];
            edge.tail = number[edge.tail];
            edge.head = number[edge.head];
            plain.push_back({edge.tail, edge.head, 0, 0, 0});
            forks.edges.push_back(std::move(edge));
        }
        forks.steps = Adjacency(forks.vertex_count, plain);
        forks.source = number[problem.source];
        for (const VertexId stop : problem.stops)
            forks.stops.push_back(number[stop]);
        return forks;
    }

private:
    void add(JoinedEdge edge) {
        const std::size_t e = edges_.size();
        at_[edge.tail].push_back(e);
        at_[edge.head].push_back(e);
        edges_.push_back(std::move(edge));
        alive_.push_back(1);
    }

    void remove(std::size_t e) {
        alive_[e] = 0;
        for (const VertexId v : {edges_[e].tail, edges_[e].head}) {
            std::erase(at_[v], e);
            waiting_.push_back(v);
        }
    }

    /// The edge with its tail at the vertex.
    [[nodiscard]] JoinedEdge seen_from(VertexId v, std::size_t e) const {
        JoinedEdge edge = edges_[e];
        if (edge.tail == v) return edge;
        std::swap(edge.tail, edge.head);
        std::reverse(edge.arcs.begin(), edge.arcs.end());
        for (ArcId& arc : edge.arcs)
            arc ^= 1;
        return edge;
    }

    void join_at(VertexId v) {
        const std::size_t first = at_[v][0];
        const std::size_t second = at_[v][1];
        const VertexId from = edges_[first].tail == v ? edges_[first].head : edges_[first].tail;
        JoinedEdge joined = seen_from(from, first);
        const JoinedEdge rest = seen_from(v, second);
        remove(first);
        remove(second);
        joined.head = rest.head;
        if (joined.tail == joined.head) return;  // A ring.
        joined.opening += rest.opening;
        joined.charge += rest.charge;
        joined.arcs.insert(joined.arcs.end(), rest.arcs.begin(), rest.arcs.end());
        add(std::move(joined));
    }

    std::vector<JoinedEdge> edges_;
    std::vector<char> alive_;
    std::vector<std::vector<std::size_t>> at_;
    std::vector<char> kept_;
    std::vector<VertexId> waiting_;
};

}  // namespace

ForkNetwork forks_of(const ChainProblem& problem) {
    Joiner joiner(problem);
    joiner.run();
    return joiner.network(problem);
}

}  // namespace spadework::graph::chains
