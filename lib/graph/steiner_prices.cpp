#include "graph/steiner_prices.hpp"

#include <algorithm>

#include "graph/label_heap.hpp"
#include "graph/reduction.hpp"
#include "graph/solve_run.hpp"

namespace spadework::graph::steiner {

namespace {

constexpr std::size_t kMostWork = 4'000'000;  ///< Edges times terminals.
constexpr int kMostQuestions = 1'500;         ///< The general solver asks whether to stop once a pass.

/// Ends the general solver's run with the search.
class WithTheSearch : public Progress {
public:
    explicit WithTheSearch(const StopSign& stop) : stop_(stop) {}
    void improved(std::int64_t /*value*/, std::int64_t /*bound*/) override {}
    [[nodiscard]] bool should_stop() const override { return stop_.here(); }

private:
    const StopSign& stop_;
};

/// The network as a problem of the general solver; edge e is `half_of_edge[e]`.
SharedCostProblem problem_on(const Network& network, VertexId root, std::vector<std::int32_t>& half_of_edge) {
    SharedCostProblem problem;
    problem.vertex_count = network.vertex_count();
    for (std::int32_t h = 0; h < network.half_count(); ++h) {
        const Half& half = network.half(h);
        if (half.twin < h) continue;
        problem.edges.push_back({half.to, network.at(h), half.cost, 0, 0});
        half_of_edge.push_back(h);
    }
    for (const VertexId t : network.terminals()) {
        if (t != root) problem.demands.push_back({t, 0, 0});
    }
    problem.roots.push_back({root, 0});
    return problem;
}

/// Shortest distance from the root to the terminal under its own prices alone.
Cost priced_distance(const Network& network, VertexId root, VertexId terminal, const std::vector<Cost>& price) {
    std::vector<Cost> label(network.vertex_count(), kFar);
    LabelHeap<Cost> queue(network.vertex_count());
    label[terminal] = 0;
    queue.push_or_lower(terminal, 0);
    while (!queue.empty()) {
        const VertexId here = queue.pop();
        if (here == root) return label[root];
        for (std::int32_t h = network.first(here); h < network.end(here); ++h) {
            const VertexId next = network.half(h).to;
            const Cost along = label[here] + price[h];
            if (along >= label[next]) continue;
            label[next] = along;
            queue.push_or_lower(next, along);
        }
    }
    return 0;
}

/// So many parts that the sum of all costs stays in bounds, at most those given.
Cost fitting_parts(const Network& network, Cost parts) {
    Cost sum = 1;
    for (std::int32_t h = 0; h < network.half_count(); ++h)
        sum += network.half(h).cost / 2 + 1;
    while (parts > 1 && times(sum, parts) > kFar / 8)
        parts /= 2;
    return parts;
}

}  // namespace

bool worth_pricing(const Network& network) {
    return static_cast<std::size_t>(network.half_count()) / 2 * network.terminals().size() <= kMostWork;
}

Pricing priced(const Network& network, const StopSign& stop, int threads) {
    Pricing result;
    result.root = network.terminals().front();
    std::vector<std::int32_t> half_of_edge;
    const SharedCostProblem problem = problem_on(network, result.root, half_of_edge);
    const auto small = reduced(problem);
    const WithTheSearch search(stop);
    PassLimit passes(&search, kMostQuestions);
    SolveLimits limits;
    limits.seconds = stop.seconds_left();
    limits.threads = threads;
    limits.progress = &passes;
    SolveRun run(problem, *small, limits);
    run.run();
    for (const auto& path : run.plan().paths) {
        for (const EdgeId e : path)
            result.tree.push_back(half_of_edge[e]);
    }
    const SharedCostCertificate certificate = run.certificate();
    result.parts = fitting_parts(network, certificate.parts);
    const Cost shrink = certificate.parts / result.parts;
    result.rest.resize(network.half_count());
    for (std::int32_t h = 0; h < network.half_count(); ++h)
        result.rest[h] = network.half(h).cost * result.parts;
    std::vector<Cost> price(network.half_count(), 0);
    for (std::size_t d = 0; d < problem.demands.size(); ++d) {
        // Half edge h of an edge leads from the edge's tail, as an arc; its twin from the head.
        const auto arc = [&](const EdgePrice& p) {
            const std::int32_t h = half_of_edge[p.edge];
            return p.backwards ? network.half(h).twin : h;
        };
        for (const EdgePrice& p : certificate.prices[d]) {
            price[arc(p)] += p.price / shrink;
            result.rest[arc(p)] -= p.price / shrink;
        }
        result.sum += priced_distance(network, result.root, problem.demands[d].at, price);
        for (const EdgePrice& p : certificate.prices[d])
            price[arc(p)] = 0;
    }
    if (std::any_of(result.rest.begin(), result.rest.end(), [](Cost left) { return left < 0; })) {
        // More given than there is: such prices prove nothing.
        result.sum = 0;
        for (std::int32_t h = 0; h < network.half_count(); ++h)
            result.rest[h] = 0;
    }
    result.bound = (result.sum + result.parts - 1) / result.parts;
    return result;
}

}  // namespace spadework::graph::steiner
