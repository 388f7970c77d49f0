#include "graph/steiner_search.hpp"

#include <algorithm>
#include <optional>

#include "graph/steiner_bound_tests.hpp"
#include "graph/steiner_reductions.hpp"

namespace spadework::graph::steiner {

namespace {

constexpr std::size_t kLargeGraph = 1'500;  ///< Edges beyond which branching and prices gain little.

constexpr double kSmallGap = 0.01;  ///< Above it prices find what rounds do not.

/// Less than a fiftieth gone.
bool hardly_smaller(std::size_t now, std::size_t before) {
    return now >= before - before / 50;
}

std::vector<Cost> costs_of(const Network& network) {
    std::vector<Cost> lengths(network.half_count());
    for (std::int32_t h = 0; h < network.half_count(); ++h)
        lengths[h] = network.half(h).cost;
    return lengths;
}

std::vector<VertexId> vertices_of(const Network& network, const Tree& tree) {
    std::vector<VertexId> vertices;
    for (const std::int32_t h : tree.halves) {
        vertices.push_back(network.half(h).to);
        vertices.push_back(network.at(h));
    }
    std::sort(vertices.begin(), vertices.end());
    vertices.erase(std::unique(vertices.begin(), vertices.end()), vertices.end());
    return vertices;
}

/// Of the forks that are no terminals the one that trees agree least about; -1 where there is none.
VertexId most_disputed(const Graph& graph, const std::vector<std::int32_t>& uses, std::int32_t trees) {
    VertexId best = -1;
    std::size_t best_score = 0;
    for (VertexId v = 0; v < graph.vertex_count(); ++v) {
        if (graph.is_terminal(v) || graph.degree(v) < 3) continue;
        const auto dispute = static_cast<std::size_t>(std::min(uses[v], trees - uses[v]));
        const std::size_t score = 16 * dispute + std::min<std::size_t>(graph.degree(v), 15);
        if (score <= best_score) continue;
        best = v;
        best_score = score;
    }
    return best;
}

}  // namespace

Search::Search(VertexId vertex_count, std::vector<InputEdge> edges, std::vector<VertexId> terminals, Effort effort,
               Surroundings surroundings)
    : effort_(effort),
      around_(std::move(surroundings)),
      edges_(std::move(edges)),
      terminals_(std::move(terminals)),
      graph_(vertex_count, edges_, terminals_),
      input_(graph_) {
    for (std::int32_t h = 0; h < input_.half_count(); ++h)
        input_edge_.push_back(graph_.input_edge(input_.edge_in_graph(h)));
}

bool Search::stopped() {
    if (!interrupted_ && around_.stop->here()) interrupted_ = true;
    return interrupted_;
}

bool Search::closed() const {
    const auto gap = static_cast<double>(best_.cost - bound_);
    return bound_ >= best_.cost || gap <= effort_.target_gap * static_cast<double>(best_.cost);
}

void Search::run() {
    reduce_plainly(graph_, kMostPasses);
    first_trees();
    rounds();
    if (effort_.price && !closed() && !stopped()) price();
    if (effort_.branchings > 0 && !closed() && !stopped()) branch();
    if (closed()) interrupted_ = false;
}

/// Reductions that need no tree, until they hardly help.
void Search::reduce_plainly(Graph& graph, int passes) {
    settle_degrees(graph);
    erase_cut_off(graph);
    for (int pass = 0; pass < passes && graph.terminal_count() > 1 && !stopped(); ++pass) {
        const std::size_t before = graph.live_edges();
        erase_long_edges(graph, *around_.team);
        settle_degrees(graph);
        contract_sure_edges(graph);
        settle_degrees(graph);
        eliminate_bypassed(graph, *around_.team, pass == 0 ? 3 : 5);
        settle_degrees(graph);
        if (hardly_smaller(graph.live_edges(), before)) break;
    }
}

void Search::first_trees() {
    const Network network(graph_);
    if (network.terminals().size() < 2) return offer(graph_, network, Tree{});
    const std::vector<Cost> lengths = costs_of(network);
    const std::vector<VertexId>& terminals = network.terminals();
    const std::size_t starts = std::min(effort_.starts, terminals.size());
    std::vector<std::optional<Tree>> trees(starts);
    around_.team->run(starts, 1, [&](std::size_t i, std::size_t worker) {
        const auto stop = [&] { return worker == 0 ? around_.stop->here() : around_.stop->anywhere(); };
        if (i > 0 && stop()) return;
        trees[i] = joined_by_nearest(network, terminals[i * terminals.size() / starts], lengths);
        if (trees[i]) exchange_paths(network, *trees[i], stop);
    });
    for (const auto& tree : trees) {
        if (tree) offer(graph_, network, *tree);
    }
}

void Search::rounds() {
    std::size_t before = graph_.live_edges();
    int fruitless = 0;
    const auto patience = [&] {
        const bool near = static_cast<double>(best_.cost - bound_) < kSmallGap * static_cast<double>(best_.cost);
        return near && graph_.live_edges() > kLargeGraph ? effort_.patient_rounds : effort_.fruitless_rounds;
    };
    for (int number = 0; number < effort_.most_rounds && fruitless < patience(); ++number) {
        if (closed() || stopped()) return;
        const Cost old_best = best_.cost;
        const Cost old_bound = bound_;
        const std::size_t old_edges = graph_.live_edges();
        raise_bound(bound_round(graph_, number, effort_.round, nullptr));
        if (closed() || stopped()) return;
        if (!hardly_smaller(graph_.live_edges(), before)) {
            reduce_plainly(graph_, kMostPasses);
            before = graph_.live_edges();
        }
        if (effort_.recombine) recombine();
        const bool gain = best_.cost < old_best || !hardly_smaller(graph_.live_edges(), old_edges) ||
                          bound_ - old_bound > (best_.cost - bound_) / 50;
        fruitless = gain ? 0 : fruitless + 1;
    }
}

/// Ascents and trees on the graph, then what they rule out is taken from it. Returns a bound on every tree of the graph
/// (fixed cost included) and, if asked, a vertex to branch at (of the graph, -1 if there is none).
Cost Search::bound_round(Graph& graph, int number, const RoundSize& size, VertexId* branch_at) {
    const Network network(graph);
    if (branch_at != nullptr) *branch_at = -1;
    if (network.terminals().size() < 2) {
        offer(graph, network, Tree{});
        return graph.fixed_cost();
    }
    const Round round =
        work_round(network, guide(graph, network), number, size, *around_.team,
                   [&](std::size_t worker) { return worker == 0 ? around_.stop->here() : around_.stop->anywhere(); });
    fresh_.clear();
    std::vector<std::int32_t> uses(graph.vertex_count(), 0);
    for (const Tree& tree : round.trees) {
        offer(graph, network, tree);
        for (const VertexId v : vertices_of(network, tree))
            ++uses[network.vertex_in_graph(v)];
    }
    Cost most = 0;
    for (const Ascent& ascent : round.ascents)
        most = std::max(most, ascent.bound);
    if (most >= kFar) return kLargestSum;
    const Cost bound = most + graph.fixed_cost();
    Findings findings(network);
    for (const Ascent& ascent : round.ascents)
        findings.add(network, {ascent.root, ascent.rest, limit(graph) - ascent.bound});
    findings.apply(network, graph);
    settle_degrees(graph);
    if (graph.terminal_count() < 2) offer(graph, Network(graph), Tree{});
    if (branch_at != nullptr) *branch_at = most_disputed(graph, uses, static_cast<std::int32_t>(round.trees.size()));
    return bound;
}

}  // namespace spadework::graph::steiner
