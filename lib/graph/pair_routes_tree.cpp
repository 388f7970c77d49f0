#include "graph/pair_routes_tree.hpp"

#include <algorithm>

namespace spadework::graph::pair_routes {

namespace {

void lay_out(const Network& network, const std::vector<char>& open, VertexId root, RootedTree& tree) {
    struct Waiting {
        VertexId vertex;
        std::int32_t parent;
        EdgeId edge;
    };
    std::vector<Waiting> waiting{{root, -1, -1}};
    while (!waiting.empty()) {
        const Waiting next = waiting.back();
        waiting.pop_back();
        if (tree.place[next.vertex] >= 0) continue;
        const std::int32_t here = tree.count();
        tree.place[next.vertex] = here;
        tree.vertex.push_back(next.vertex);
        tree.parent.push_back(next.parent);
        tree.edge.push_back(next.edge);
        tree.depth.push_back(next.parent < 0 ? 0 : tree.depth[next.parent] + 1);
        for (const Step& step : network.steps.from(next.vertex)) {
            if (open[step.edge] != 0 && tree.place[step.to] < 0) waiting.push_back({step.to, here, step.edge});
        }
    }
}

}  // namespace

RootedTree rooted(const Network& network, std::span<const EdgeId> edges, VertexId root) {
    RootedTree tree;
    tree.place.assign(network.vertex_count, -1);
    std::vector<char> open(network.edges.size(), 0);
    for (const EdgeId e : edges)
        open[e] = 1;
    lay_out(network, open, root, tree);
    tree.size.assign(tree.vertex.size(), 1);
    for (std::int32_t p = tree.count() - 1; p > 0; --p)
        tree.size[tree.parent[p]] += tree.size[p];
    return tree;
}

std::vector<EdgeId> pruned(const Network& network, std::span<const EdgeId> edges, VertexId root,
                           const std::vector<char>& keep) {
    const RootedTree tree = rooted(network, edges, root);
    std::vector<char> needed(tree.vertex.size(), 0);
    std::vector<EdgeId> left;
    for (std::int32_t p = tree.count() - 1; p > 0; --p) {
        if (!needed[p] && !keep[tree.vertex[p]]) continue;
        needed[tree.parent[p]] = 1;
        left.push_back(tree.edge[p]);
    }
    std::sort(left.begin(), left.end());
    return left;
}

std::vector<EdgeId> path_between(const RootedTree& tree, VertexId from, VertexId to) {
    std::vector<EdgeId> out;
    std::vector<EdgeId> back;
    std::int32_t a = tree.place[from];
    std::int32_t b = tree.place[to];
    while (a != b) {
        if (tree.depth[a] >= tree.depth[b]) {
            out.push_back(tree.edge[a]);
            a = tree.parent[a];
        } else {
            back.push_back(tree.edge[b]);
            b = tree.parent[b];
        }
    }
    out.insert(out.end(), back.rbegin(), back.rend());
    return out;
}

}  // namespace spadework::graph::pair_routes
