// Shortest paths with the library's queue and with Boost.Graph, on the same map.

#include <algorithm>
#include <exception>
#include <limits>

#include <CLI/CLI.hpp>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/compressed_sparse_row_graph.hpp>
#include <boost/graph/dijkstra_shortest_paths.hpp>
#include <fmt/format.h>

#include "graph/adjacency.hpp"
#include "graph/label_heap.hpp"
#include "support/cpu_time.hpp"
#include "support/routing_file.hpp"

namespace {

using namespace spadework;
using graph::VertexId;

constexpr int kDiffer = 1;
constexpr int kBadUse = 2;
constexpr int kBadFile = 3;

using Distances = std::vector<std::int64_t>;
constexpr std::int64_t kFar = std::numeric_limits<std::int64_t>::max();

/// Dijkstra's algorithm as the library's searches run it.
class OurPaths {
public:
    explicit OurPaths(const graph::SharedCostProblem& problem)
        : problem_(problem), steps_(problem.vertex_count, problem.edges), queue_(problem.vertex_count) {}

    void search(VertexId from, Distances& distance) {
        std::fill(distance.begin(), distance.end(), kFar);
        distance[from] = 0;
        queue_.push_or_lower(from, 0);
        while (!queue_.empty()) {
            const VertexId here = queue_.pop();
            for (const graph::Step& step : steps_.from(here)) {
                const std::int64_t along = distance[here] + problem_.edges[step.edge].length;
                if (along >= distance[step.to]) continue;
                distance[step.to] = along;
                queue_.push_or_lower(step.to, along);
            }
        }
    }

private:
    const graph::SharedCostProblem& problem_;
    graph::Adjacency steps_;
    graph::LabelHeap<std::int64_t> queue_;
};

struct Weight {
    std::int64_t weight = 0;
};

/// Boost's search over one of its graph types.
template <class Graph>
class BoostPaths {
public:
    explicit BoostPaths(Graph graph) : graph_(std::move(graph)) {}

    void search(VertexId from, Distances& distance) {
        boost::dijkstra_shortest_paths(graph_, static_cast<std::size_t>(from),
                                       boost::weight_map(boost::get(&Weight::weight, graph_))
                                           .distance_map(boost::make_iterator_property_map(
                                               distance.begin(), boost::get(boost::vertex_index, graph_))));
    }

private:
    Graph graph_;
};

using ListGraph = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, boost::no_property, Weight>;
using RowGraph = boost::compressed_sparse_row_graph<boost::directedS, boost::no_property, Weight>;

ListGraph list_graph(const graph::SharedCostProblem& problem) {
    ListGraph graph(static_cast<std::size_t>(problem.vertex_count));
    for (const graph::SharedCostEdge& edge : problem.edges)
        boost::add_edge(static_cast<std::size_t>(edge.tail), static_cast<std::size_t>(edge.head), Weight{edge.length},
                        graph);
    return graph;
}

RowGraph row_graph(const graph::SharedCostProblem& problem) {
    std::vector<std::pair<std::size_t, std::size_t>> ends;
    std::vector<Weight> weights;
    for (const graph::SharedCostEdge& edge : problem.edges) {
        const auto tail = static_cast<std::size_t>(edge.tail), head = static_cast<std::size_t>(edge.head);
        ends.insert(ends.end(), {{tail, head}, {head, tail}});
        weights.insert(weights.end(), 2, Weight{edge.length});
    }
    return {boost::edges_are_unsorted_multi_pass, ends.begin(), ends.end(), weights.begin(),
            static_cast<std::size_t>(problem.vertex_count)};
}

struct Timed {
    double best_seconds = std::numeric_limits<double>::infinity();  ///< Of `repeats` rounds over all demands.
    std::vector<Distances> distances;                               ///< One list for each demand.
};

template <class Paths>
Timed time_searches(Paths paths, const graph::SharedCostProblem& problem, int repeats) {
    Timed timed;
    timed.distances.assign(problem.demands.size(), Distances(static_cast<std::size_t>(problem.vertex_count), kFar));
    for (int i = 0; i < repeats; ++i) {
        const double start = bench::cpu_seconds();
        for (std::size_t d = 0; d < problem.demands.size(); ++d)
            paths.search(problem.demands[d].at, timed.distances[d]);
        timed.best_seconds = std::min(timed.best_seconds, bench::cpu_seconds() - start);
    }
    return timed;
}

int run(const std::string& file, int repeats) {
    const bench::RoutingCase routing = bench::read_routing_case(bench::file_text(file), {});
    for (const std::string& error : routing.errors)
        fmt::print(stderr, "{}: {}\n", file, error);
    if (!routing.errors.empty()) return kBadFile;
    const graph::SharedCostProblem& problem = routing.problem;
    const Timed ours = time_searches(OurPaths(problem), problem, repeats);
    const Timed list = time_searches(BoostPaths(list_graph(problem)), problem, repeats);
    const Timed rows = time_searches(BoostPaths(row_graph(problem)), problem, repeats);
    const bool same = ours.distances == list.distances && ours.distances == rows.distances;
    fmt::print("nodes={} edges={} searches={}\n", problem.vertex_count, problem.edges.size(), problem.demands.size());
    fmt::print(
        "ours_seconds={:.6f} adjacency_list_seconds={:.6f} compressed_row_seconds={:.6f} list_ratio={:.2f} "
        "row_ratio={:.2f} same_distances={}\n",
        ours.best_seconds, list.best_seconds, rows.best_seconds, list.best_seconds / ours.best_seconds,
        rows.best_seconds / ours.best_seconds, same ? "yes" : "no");
    return same ? 0 : kDiffer;
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App app(
        "Finds the shortest paths from each terminal of a benchmark file to every node, with the library's queue and "
        "adjacency and with boost::dijkstra_shortest_paths over two of Boost's graph types, and holds the distances "
        "against each other. The last line of output is\n"
        "  ours_seconds=... adjacency_list_seconds=... compressed_row_seconds=... list_ratio=... row_ratio=... "
        "same_distances=yes|no\n"
        "in processor seconds for all searches together, the best of several rounds; a ratio above 1 means Boost takes "
        "longer.\nExit code: 0 done, 1 distances differ, 2 bad use, 3 bad file.");
    std::string file;
    int repeats = 5;
    app.add_option("file", file, "CT site map or .stp file, may be gzipped")->required();
    app.add_option("--repeats", repeats, "rounds over all searches (default 5)")->check(CLI::PositiveNumber);
    try {
        app.parse(argc, argv);
        return run(file, repeats);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? 0 : kBadUse;
    } catch (const std::exception& error) {
        fmt::print(stderr, "{}\n", error.what());
        return kBadFile;
    }
}
