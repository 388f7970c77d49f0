#include "graph/passing_vertices.hpp"

#include <algorithm>

#include "graph/adjacency.hpp"

namespace spadework::graph {

namespace {

class Joining {
public:
    Joining(VertexId vertex_count, std::span<const SharedCostEdge> edges, const std::vector<char>& kept)
        : edges_(edges), kept_(kept), steps_(vertex_count, edges), alive_(edges.size(), 1), degree_(vertex_count, 0) {
        for (std::size_t e = 0; e < edges.size(); ++e) {
            if (edges[e].tail == edges[e].head) {
                alive_[e] = 0;
                continue;
            }
            ++degree_[edges[e].tail];
            ++degree_[edges[e].head];
        }
    }

    JoinedNetwork run() {
        for (VertexId v = 0; v < count(); ++v)
            drop_dead_end(v);
        JoinedNetwork joined;
        joined.number.assign(static_cast<std::size_t>(count()), -1);
        for (VertexId v = 0; v < count(); ++v) {
            if (!stays(v)) continue;
            joined.number[v] = static_cast<VertexId>(joined.vertices.size());
            joined.vertices.push_back(v);
        }
        for (const VertexId v : joined.vertices) {
            for (const Step& step : steps_.from(v)) {
                if (alive_[step.edge]) add_chain(v, step, joined);
            }
        }
        return joined;
    }

private:
    [[nodiscard]] VertexId count() const { return static_cast<VertexId>(degree_.size()); }
    [[nodiscard]] bool stays(VertexId v) const { return kept_[v] || degree_[v] > 2; }

    void drop_dead_end(VertexId v) {
        while (!kept_[v] && degree_[v] == 1) {
            for (const Step& step : steps_.from(v)) {
                if (!alive_[step.edge]) continue;
                alive_[step.edge] = 0;
                --degree_[v];
                --degree_[step.to];
                v = step.to;
                break;
            }
        }
    }

    /// Walks from a vertex that stays to the next one that does.
    void add_chain(VertexId from, Step step, JoinedNetwork& joined) {
        SharedCostEdge whole{joined.number[from], 0, 0, 0, 0};
        std::vector<EdgeId> chain;
        std::vector<char> against;
        while (true) {
            const SharedCostEdge& edge = edges_[step.edge];
            against.push_back(edge.head != step.to);
            alive_[step.edge] = 0;
            chain.push_back(step.edge);
            whole.opening += edge.opening;
            whole.length += edge.length;
            whole.passage += edge.passage;
            if (stays(step.to)) break;
            const auto& next = steps_.from(step.to);
            step = *std::find_if(next.begin(), next.end(), [&](const Step& s) { return alive_[s.edge] != 0; });
        }
        whole.head = joined.number[step.to];
        if (whole.head == whole.tail) return;
        joined.edges.push_back(whole);
        joined.chains.push_back(std::move(chain));
        joined.against.push_back(std::move(against));
    }

    std::span<const SharedCostEdge> edges_;
    const std::vector<char>& kept_;
    Adjacency steps_;
    std::vector<char> alive_;
    std::vector<std::int32_t> degree_;
};

}  // namespace

std::vector<EdgeId> JoinedNetwork::expanded(std::span<const EdgeId> path, VertexId from) const {
    std::vector<EdgeId> original;
    for (const EdgeId e : path) {
        const std::vector<EdgeId>& chain = chains[e];
        const bool forwards = edges[e].tail == from;
        if (forwards) {
            original.insert(original.end(), chain.begin(), chain.end());
        } else {
            original.insert(original.end(), chain.rbegin(), chain.rend());
        }
        from = forwards ? edges[e].head : edges[e].tail;
    }
    return original;
}

JoinedNetwork without_passing_vertices(VertexId vertex_count, std::span<const SharedCostEdge> edges,
                                       const std::vector<char>& kept) {
    return Joining(vertex_count, edges, kept).run();
}

}  // namespace spadework::graph
