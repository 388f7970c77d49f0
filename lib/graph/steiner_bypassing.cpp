#include <algorithm>
#include <array>

#include "graph/steiner_reductions.hpp"
#include "graph/steiner_special_distance.hpp"

namespace spadework::graph::steiner {

namespace {

constexpr int kMostEdges = 6;
constexpr int kMostSettled = 80;
using Matrix = std::array<std::array<Cost, kMostEdges>, kMostEdges>;

/// What a vertex can be replaced with.
struct Verdict {
    bool bypassed = false;
    std::vector<std::pair<EdgeId, EdgeId>> pairs;
};

/// Cost of a spanning tree of the members (a set of bits) by the distances.
Cost spanning_tree(const Matrix& distance, unsigned members, int count) {
    std::array<Cost, kMostEdges> label{};
    label.fill(kFar);
    unsigned outside = members & (members - 1);
    int last = __builtin_ctz(members);
    Cost total = 0;
    while (outside != 0) {
        int next = -1;
        for (int i = 0; i < count; ++i) {
            if ((outside >> i & 1U) == 0) continue;
            label[i] = std::min(label[i], distance[last][i]);
            if (next < 0 || label[i] < label[next]) next = i;
        }
        if (label[next] >= kFar) return kFar;
        total += label[next];
        outside &= ~(1U << next);
        last = next;
    }
    return total;
}

class BypassTest {
public:
    BypassTest(const Network& network, const SpecialDistances& special)
        : network_(network), special_(special), search_(network) {}

    Verdict test(VertexId v) {
        const int count = network_.degree(v);
        const std::int32_t first = network_.first(v);
        measure(v);
        Verdict verdict;
        for (unsigned members = 1; members < 1U << count; ++members) {
            if (__builtin_popcount(members) < 3) continue;
            Cost edges = 0;
            for (int i = 0; i < count; ++i)
                edges += (members >> i & 1U) != 0 ? network_.half(first + i).cost : 0;
            if (spanning_tree(distance_, members, count) >= edges) return verdict;
        }
        verdict.bypassed = true;
        for (int i = 0; i < count; ++i) {
            for (int j = i + 1; j < count; ++j) {
                if (distance_[i][j] < network_.half(first + i).cost + network_.half(first + j).cost) continue;
                verdict.pairs.emplace_back(network_.edge_in_graph(first + i), network_.edge_in_graph(first + j));
            }
        }
        return verdict;
    }

private:
    /// Special distances between the neighbours, ways through the vertex left out of the nearby search.
    void measure(VertexId v) {
        const int count = network_.degree(v);
        const std::int32_t first = network_.first(v);
        for (int i = 0; i < count; ++i) {
            distance_[i][i] = 0;
            Cost limit = 0;
            for (int j = i + 1; j < count; ++j)
                limit = std::max(limit, network_.half(first + i).cost + network_.half(first + j).cost);
            if (limit > 0) search_.run(network_.half(first + i).to, v, limit, kMostSettled);
            for (int j = i + 1; j < count; ++j) {
                const VertexId u = network_.half(first + i).to;
                const VertexId w = network_.half(first + j).to;
                distance_[i][j] = distance_[j][i] = std::min(search_.label(w), special_.at_most(u, w, 0));
            }
        }
    }

    const Network& network_;
    const SpecialDistances& special_;
    NearbySearch search_;
    Matrix distance_{};
};

/// No neighbour must have changed in this round: then the vertex still has the edges it was judged by.
bool untouched(const Graph& graph, VertexId v, const std::vector<char>& changed) {
    return std::none_of(graph.incident(v).begin(), graph.incident(v).end(),
                        [&](EdgeId e) { return changed[graph.across(e, v)] != 0; });
}

}  // namespace

std::size_t eliminate_bypassed(Graph& graph, WorkerTeam& team, std::size_t most_edges) {
    const Network network(graph);
    const SpecialDistances special(network);
    std::vector<BypassTest> tests(team.size(), BypassTest(network, special));
    std::vector<Verdict> verdicts(network.vertex_count());
    const auto wanted = std::min<std::int32_t>(static_cast<std::int32_t>(most_edges), kMostEdges);
    team.run(network.vertex_count(), 128, [&](std::size_t i, std::size_t worker) {
        const auto v = static_cast<VertexId>(i);
        if (network.is_terminal(v) || network.degree(v) < 3 || network.degree(v) > wanted) return;
        verdicts[i] = tests[worker].test(v);
    });
    std::vector<char> changed(graph.vertex_count(), 0);
    std::size_t eliminated = 0;
    for (VertexId i = 0; i < network.vertex_count(); ++i) {
        const VertexId v = network.vertex_in_graph(i);
        if (!verdicts[i].bypassed || changed[v] || !untouched(graph, v, changed)) continue;
        if (verdicts[i].pairs.size() > graph.degree(v) || !graph.can_eliminate(v)) continue;
        changed[v] = 1;
        for (const EdgeId e : graph.incident(v))
            changed[graph.across(e, v)] = 1;
        graph.eliminate(v, verdicts[i].pairs);
        ++eliminated;
    }
    return eliminated;
}

}  // namespace spadework::graph::steiner
