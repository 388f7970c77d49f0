// What a search does beside its rounds: keeps trees, solves unions of them, raises the bound by prices, branches.

#include <algorithm>

#include "graph/steiner_bound_tests.hpp"
#include "graph/steiner_prices.hpp"
#include "graph/steiner_reductions.hpp"
#include "graph/steiner_search.hpp"

namespace spadework::graph::steiner {

namespace {

constexpr std::size_t kBranchingEdges = 5'000;  ///< Larger graphs are not branched on.
constexpr std::size_t kManyNodes = 400;         ///< Beyond that many open nodes the latest goes first.

/// The input edges marked, with vertices numbered anew.
struct Part {
    VertexId vertices = 0;
    std::vector<InputEdge> edges;
    std::vector<EdgeId> origin;  ///< For each edge its number in the input.
    std::vector<VertexId> terminals;
};

Part part_of(VertexId vertex_count, const std::vector<InputEdge>& edges, const std::vector<VertexId>& terminals,
             const std::vector<char>& marked) {
    Part part;
    std::vector<VertexId> number(vertex_count, -1);
    const auto renumbered = [&](VertexId v) {
        if (number[v] < 0) number[v] = part.vertices++;
        return number[v];
    };
    for (std::size_t e = 0; e < edges.size(); ++e) {
        if (!marked[e]) continue;
        const VertexId tail = renumbered(edges[e].tail);
        part.edges.push_back({tail, renumbered(edges[e].head), edges[e].cost});
        part.origin.push_back(static_cast<EdgeId>(e));
    }
    for (const VertexId t : terminals)
        part.terminals.push_back(renumbered(t));
    return part;
}

}  // namespace

/// A spanning tree of what the given edges join: contracted and replaced edges may overlap, and it is never dearer.
void Search::offer(const std::vector<EdgeId>& input_edges) {
    std::vector<char> wanted(edges_.size(), 0);
    for (const EdgeId e : input_edges)
        wanted[e] = 1;
    std::vector<std::int32_t> halves;
    for (std::int32_t h = 0; h < input_.half_count(); ++h) {
        if (wanted[input_edge_[h]] && input_.half(h).twin > h) halves.push_back(h);
    }
    const Tree tree = tidied(input_, halves);
    if (tree.cost >= best_.cost) return;
    best_.cost = tree.cost;
    best_.edges.clear();
    for (const std::int32_t h : tree.halves)
        best_.edges.push_back(input_edge_[h]);
    std::sort(best_.edges.begin(), best_.edges.end());
    if (around_.improved) around_.improved(best_.cost, std::min(bound_, best_.cost));
}

void Search::offer(const Graph& graph, const Network& network, const Tree& tree) {
    std::vector<EdgeId> edges;
    for (const std::int32_t h : tree.halves)
        edges.push_back(network.edge_in_graph(h));
    const bool better = tree.cost + graph.fixed_cost() < best_.cost;
    if (!better && !effort_.recombine) return;
    fresh_.push_back(graph.input_edges(edges));
    if (better) offer(fresh_.back());
}

void Search::raise_bound(Cost bound) {
    bound = std::min(bound, best_.cost);
    if (bound <= bound_) return;
    bound_ = bound;
    if (around_.improved && best_.cost < kLargestSum) around_.improved(best_.cost, bound_);
}

/// A good tree of the network, as near to the best one known as what is left of the graph allows.
Tree Search::guide(const Graph& graph, const Network& network) const {
    std::vector<char> wanted(edges_.size(), 0);
    for (const EdgeId e : best_.edges)
        wanted[e] = 1;
    std::vector<Cost> lengths(network.half_count());
    for (std::int32_t h = 0; h < network.half_count(); ++h) {
        const Half& half = network.half(h);
        lengths[h] = half.twin < h ? lengths[half.twin]
                                   : half.cost / (graph.is_made_of(network.edge_in_graph(h), wanted) ? 1024 : 1);
    }
    return joined_by_nearest(network, network.terminals().front(), lengths).value_or(Tree{});
}

/// Solves the problem on the edges of the last round's trees and the best tree.
void Search::recombine() {
    std::vector<char> wanted(edges_.size(), 0);
    for (const EdgeId e : best_.edges)
        wanted[e] = 1;
    for (const auto& edges : fresh_) {
        for (const EdgeId e : edges)
            wanted[e] = 1;
    }
    Part part = part_of(graph_.vertex_count(), edges_, terminals_, wanted);
    std::vector<EdgeId> known;
    for (std::size_t i = 0; i < part.origin.size(); ++i) {
        if (std::binary_search(best_.edges.begin(), best_.edges.end(), part.origin[i]))
            known.push_back(static_cast<EdgeId>(i));
    }
    Effort effort;
    effort.fruitless_rounds = effort.patient_rounds = 2;
    effort.most_rounds = 5;
    effort.recombine = false;
    effort.price = false;
    effort.branchings = 0;
    Surroundings quiet = around_;
    quiet.improved = nullptr;
    Search search(part.vertices, std::move(part.edges), std::move(part.terminals), effort, quiet);
    search.offer(known);
    search.run();
    std::vector<EdgeId> found;
    for (const EdgeId e : search.best().edges)
        found.push_back(part.origin[e]);
    offer(found);
}

/// Prices for every terminal, while they rule out much of the graph.
void Search::price() {
    for (int time = 0; time < 10 && graph_.terminal_count() > 1 && !closed() && !stopped(); ++time) {
        const std::size_t before = graph_.live_edges();
        const Network network(graph_);
        if (!worth_pricing(network)) return;
        const Pricing pricing = priced(network, *around_.stop, static_cast<int>(around_.team->size()));
        offer(graph_, network, tidied(network, pricing.tree));
        raise_bound(pricing.bound + graph_.fixed_cost());
        if (closed()) return;
        Findings findings(network);
        findings.add(network, {pricing.root, pricing.rest, pricing.room(limit(graph_))});
        findings.apply(network, graph_);
        reduce_plainly(graph_, kMostPasses);
        raise_bound(bound_round(graph_, 1000 + time, effort_.round, nullptr));
        if (effort_.recombine) recombine();
        if (graph_.live_edges() > before - before / 10) return;
    }
}

/// Reduces the node's graph as far as it goes and raises its bound.
void Search::work_on_node(Node& node, VertexId& branch_at) {
    RoundSize small;
    small.roots = 4;
    small.varied_trees = 0;
    for (int time = 0; time < 3; ++time) {
        const std::size_t before = node.graph.live_edges();
        reduce_plainly(node.graph, time == 0 ? 2 : 1);
        node.bound = std::max(node.bound, bound_round(node.graph, node.number + time, small, &branch_at));
        if (node.bound >= best_.cost || stopped() || node.graph.live_edges() > before - before / 5) return;
    }
}

/// Best bound first: at a vertex, without it or with it.
void Search::branch() {
    if (graph_.live_edges() > kBranchingEdges) return;
    const bool recombine = std::exchange(effort_.recombine, false);
    std::vector<Node> open;
    open.push_back({graph_, bound_, 0, 2000});
    int number = 2000;
    for (int turn = 0; turn < effort_.branchings && !open.empty() && !closed(); ++turn) {
        auto least = std::min_element(open.begin(), open.end(), [](const Node& a, const Node& b) {
            return a.bound < b.bound || (a.bound == b.bound && a.number < b.number);
        });
        raise_bound(least->bound);
        if (closed() || stopped()) break;
        if (open.size() > kManyNodes) least = open.end() - 1;
        Node node = std::move(*least);
        if (least != open.end() - 1) *least = std::move(open.back());
        open.pop_back();
        const Cost before = node.bound;
        VertexId at = -1;
        work_on_node(node, at);
        if (stopped()) {
            // Its bound may come from work cut short, which is valid; the children are left out.
            node.bound = std::max(node.bound, before);
            open.push_back(std::move(node));
            continue;
        }
        if (node.bound >= best_.cost || at < 0) continue;
        Node without{node.graph, node.bound, node.depth + 1, number += 10};
        without.graph.erase_vertex(at);
        Node with{std::move(node.graph), node.bound, node.depth + 1, number += 10};
        with.graph.make_terminal(at);
        open.push_back(std::move(without));
        open.push_back(std::move(with));
        std::erase_if(open, [&](const Node& n) { return n.bound >= best_.cost; });
    }
    effort_.recombine = recombine;
    Cost least = best_.cost;
    for (const Node& node : open)
        least = std::min(least, node.bound);
    raise_bound(least);
}

}  // namespace spadework::graph::steiner
