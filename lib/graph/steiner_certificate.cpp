#include "graph/steiner_certificate.hpp"

#include <algorithm>
#include <tuple>

#include "graph/steiner_ascent.hpp"

namespace spadework::graph::steiner {

namespace {

struct ArcPrice {
    std::int32_t arc;
    Cost price;
};

/// One price for each arc.
void gather(std::vector<ArcPrice>& prices) {
    std::sort(prices.begin(), prices.end(), [](const ArcPrice& a, const ArcPrice& b) { return a.arc < b.arc; });
    std::size_t kept = 0;
    for (const ArcPrice& price : prices) {
        if (kept > 0 && prices[kept - 1].arc == price.arc) {
            prices[kept - 1].price += price.price;
        } else {
            prices[kept++] = price;
        }
    }
    prices.resize(kept);
}

/// What each terminal's cuts took from each arc.
class Ledger {
public:
    explicit Ledger(const Network& network) : prices_(network.vertex_count()), gathered_(network.vertex_count(), 32) {}

    void book(VertexId terminal, const std::vector<std::int32_t>& arcs, Cost by) {
        std::vector<ArcPrice>& prices = prices_[terminal];
        for (const std::int32_t h : arcs)
            prices.push_back({h, by});
        if (prices.size() < 2 * gathered_[terminal]) return;
        gather(prices);
        gathered_[terminal] = std::max<std::size_t>(prices.size(), 32);
    }

    const std::vector<ArcPrice>& of(VertexId terminal) {
        gather(prices_[terminal]);
        return prices_[terminal];
    }

private:
    std::vector<std::vector<ArcPrice>> prices_;
    std::vector<std::size_t> gathered_;
};

/// All edges of the problem between the same two vertices, for each edge in turn.
class Parallels {
public:
    explicit Parallels(const SharedCostProblem& problem) : problem_(problem), order_(problem.edges.size()) {
        for (std::size_t e = 0; e < order_.size(); ++e)
            order_[e] = static_cast<EdgeId>(e);
        std::sort(order_.begin(), order_.end(),
                  [&](EdgeId a, EdgeId b) { return std::pair(ends(a), a) < std::pair(ends(b), b); });
    }

    template <class Visit>
    void each(EdgeId e, Visit visit) const {
        const auto range =
            std::equal_range(order_.begin(), order_.end(), e, [&](EdgeId a, EdgeId b) { return ends(a) < ends(b); });
        std::for_each(range.first, range.second, visit);
    }

private:
    [[nodiscard]] std::pair<VertexId, VertexId> ends(EdgeId e) const {
        return std::minmax(problem_.edges[e].tail, problem_.edges[e].head);
    }

    const SharedCostProblem& problem_;
    std::vector<EdgeId> order_;
};

Graph graph_of(const SharedCostProblem& problem) {
    std::vector<InputEdge> edges;
    for (const SharedCostEdge& edge : problem.edges)
        edges.push_back({edge.tail, edge.head, edge.opening});
    std::vector<VertexId> terminals{problem.roots.front().at};
    for (const Demand& demand : problem.demands)
        terminals.push_back(demand.at);
    return Graph(problem.vertex_count, edges, terminals);
}

}  // namespace

ProvedPrices prices_by_ascent(const SharedCostProblem& problem, const StopSign& stop, double share) {
    const Graph graph = graph_of(problem);
    const Network network(graph);
    std::vector<VertexId> number(problem.vertex_count, -1);
    for (VertexId v = 0; v < network.vertex_count(); ++v)
        number[network.vertex_in_graph(v)] = v;
    Ledger ledger(network);
    AscentChoice choice;
    choice.root = number[problem.roots.front().at];
    choice.on_raise = [&](VertexId t, const std::vector<std::int32_t>& arcs, Cost by) { ledger.book(t, arcs, by); };
    choice.stop = [&] { return stop.here() || stop.past_share(share); };
    ProvedPrices result;
    result.bound = ascend(network, choice).bound;

    const Parallels parallels(problem);
    std::vector<char> paid(problem.vertex_count, 0);  // Of several demands at a vertex the first has the prices.
    for (const Demand& demand : problem.demands) {
        std::vector<EdgePrice>& prices = result.certificate.prices.emplace_back();
        if (std::exchange(paid[demand.at], 1)) continue;
        for (const ArcPrice& price : ledger.of(number[demand.at])) {
            const VertexId from = network.vertex_in_graph(network.half(price.arc).to);
            parallels.each(graph.input_edge(network.edge_in_graph(price.arc)), [&](EdgeId e) {
                prices.push_back({e, price.price, problem.edges[e].tail != from});
            });
        }
    }
    return result;
}

}  // namespace spadework::graph::steiner
