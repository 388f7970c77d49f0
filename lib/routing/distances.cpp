#include "routing/distances.hpp"

#include <algorithm>
#include <limits>

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/dijkstra_shortest_paths.hpp>

namespace spadework {

namespace {

struct EdgeData {
    std::int64_t length = 0;
    graph::EdgeId id = 0;
};
using BoostGraph = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, boost::no_property, EdgeData>;

/// Notes for each vertex the edge by which Dijkstra last improved it.
class NoteLastEdge : public boost::dijkstra_visitor<> {
public:
    explicit NoteLastEdge(std::vector<graph::EdgeId>& last_edge) : last_edge_(&last_edge) {}

    template <typename Edge, typename Graph>
    void edge_relaxed(Edge edge, const Graph& graph) const {
        (*last_edge_)[boost::target(edge, graph)] = graph[edge].id;
    }

private:
    std::vector<graph::EdgeId>* last_edge_;
};

/// For each segment the edge that costs least to open and pass once, in order.
std::vector<std::size_t> cheapest_edge_of_each_segment(const Network& network) {
    const auto cost = [&](std::size_t e) { return network.edges[e].opening + network.edges[e].passage; };
    std::vector<std::size_t> chosen;
    for (std::size_t e = 0; e < network.edges.size(); ++e) {
        const bool new_segment = chosen.empty() || network.origin[chosen.back()].segment != network.origin[e].segment;
        if (new_segment) {
            chosen.push_back(e);
        } else if (cost(e) < cost(chosen.back())) {
            chosen.back() = e;
        }
    }
    return chosen;
}

}  // namespace

ShortestWays shortest_ways(const Network& network, PlaceIndex from) {
    BoostGraph boost_graph(static_cast<std::size_t>(network.vertex_count));
    for (const std::size_t e : cheapest_edge_of_each_segment(network)) {
        const auto& edge = network.edges[e];
        boost::add_edge(static_cast<std::size_t>(edge.tail), static_cast<std::size_t>(edge.head),
                        EdgeData{edge.length, static_cast<graph::EdgeId>(e)}, boost_graph);
    }
    constexpr std::int64_t unreached = std::numeric_limits<std::int64_t>::max();
    std::vector<std::int64_t> distance(static_cast<std::size_t>(network.vertex_count), unreached);
    ShortestWays ways;
    ways.last_edge.assign(distance.size(), -1);
    boost::dijkstra_shortest_paths(boost_graph, static_cast<std::size_t>(from),
                                   boost::weight_map(boost::get(&EdgeData::length, boost_graph))
                                       .distance_map(distance.data())
                                       .distance_inf(unreached)
                                       .visitor(NoteLastEdge(ways.last_edge)));
    ways.length.resize(distance.size());
    for (std::size_t v = 0; v < distance.size(); ++v) {
        if (distance[v] != unreached) ways.length[v] = Length::from_millimetres(distance[v]);
    }
    return ways;
}

std::vector<graph::EdgeId> way_to(const ShortestWays& ways, const Network& network, PlaceIndex to) {
    std::vector<graph::EdgeId> edges;
    for (PlaceIndex at = to; ways.last_edge[static_cast<std::size_t>(at)] >= 0;) {
        const graph::EdgeId last = ways.last_edge[static_cast<std::size_t>(at)];
        const auto& edge = network.edges[static_cast<std::size_t>(last)];
        edges.push_back(last);
        at = edge.tail == at ? edge.head : edge.tail;
    }
    std::reverse(edges.begin(), edges.end());
    return edges;
}

}  // namespace spadework
