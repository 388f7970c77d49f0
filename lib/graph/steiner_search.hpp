#pragma once

// The search for a cheapest Steiner tree: reductions, bounds and trees in turns, each helping the others.

#include <functional>
#include <vector>

#include "graph/steiner_graph.hpp"
#include "graph/steiner_network.hpp"
#include "graph/steiner_round.hpp"
#include "graph/steiner_stop.hpp"
#include "graph/steiner_tree.hpp"
#include "graph/worker_team.hpp"

namespace spadework::graph::steiner {

/// A tree of the input, by the numbers of its edges, ascending.
struct InputTree {
    std::vector<EdgeId> edges;
    Cost cost = kLargestSum;  ///< That of no tree, to begin with.
};

/// What every part of a search may use.
struct Surroundings {
    WorkerTeam* team = nullptr;
    const StopSign* stop = nullptr;
    std::function<void(Cost value, Cost bound)> improved;  ///< May be empty.
};

/// How hard to work.
struct Effort {
    double target_gap = 0.0;   ///< Stop when (cost - bound) / cost is at or below this.
    int fruitless_rounds = 3;  ///< Rounds without gain before the finish,
    int patient_rounds = 12;   ///< and while the graph is large and the gap small.
    int most_rounds = 1'000'000;
    std::size_t starts = 4;  ///< Trees built at the beginning.
    RoundSize round;
    bool recombine = true;  ///< Solve unions of trees found.
    bool price = true;      ///< Raise the bound by prices once the graph is small.
    int branchings = 1'000'000;
};

class Search {
public:
    static constexpr int kMostPasses = 20;  ///< Of plain reductions in a row.

    /// All terminals must hang together, and costs must add up to at most kLargestSum.
    Search(VertexId vertex_count, std::vector<InputEdge> edges, std::vector<VertexId> terminals, Effort effort,
           Surroundings surroundings);

    /// A tree to beat, found elsewhere: input edges that join all terminals.
    void offer(const std::vector<EdgeId>& input_edges);
    /// A bound proved elsewhere.
    void raise_bound(Cost bound);

    void run();

    [[nodiscard]] const InputTree& best() const { return best_; }
    [[nodiscard]] Cost bound() const { return bound_; }
    [[nodiscard]] bool interrupted() const { return interrupted_; }

private:
    struct Node {
        Graph graph;
        Cost bound = 0;
        int depth = 0;
        int number = 0;
    };

    void reduce_plainly(Graph& graph, int passes);
    void first_trees();
    Cost bound_round(Graph& graph, int number, const RoundSize& size, VertexId* branch_at);
    void rounds();
    void recombine();
    void price();
    void branch();
    void work_on_node(Node& node, VertexId& branch_at);
    void offer(const Graph& graph, const Network& network, const Tree& tree);
    bool stopped();
    [[nodiscard]] bool closed() const;
    /// A tree of the graph must cost less to be of use.
    [[nodiscard]] Cost limit(const Graph& graph) const { return best_.cost - graph.fixed_cost(); }
    [[nodiscard]] Tree guide(const Graph& graph, const Network& network) const;

    Effort effort_;
    Surroundings around_;
    std::vector<InputEdge> edges_;
    std::vector<VertexId> terminals_;
    Graph graph_;
    Network input_;
    std::vector<EdgeId> input_edge_;          ///< For each half edge of input_.
    std::vector<std::vector<EdgeId>> fresh_;  ///< Trees of the last round, by input edges.
    InputTree best_;
    Cost bound_ = 0;
    bool interrupted_ = false;
};

}  // namespace spadework::graph::steiner
