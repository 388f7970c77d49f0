#include "graph/key_path_search.hpp"

#include "graph/key_path_exchange.hpp"

namespace spadework::graph {

void exchange_key_paths(const SearchNetwork& network, const std::vector<PathLength>& to_root, RouteTree& tree) {
    LiveTree live(network, tree);
    KeyPathExchange exchange(network, to_root, live);
    std::vector<VertexId> candidates;
    for (bool better = true; better;) {
        better = false;
        live.list_below(live.root(), candidates);
        for (auto v = candidates.rbegin(); v != candidates.rend(); ++v) {
            if (live.is_key(*v)) better = exchange.exchange_above(*v) > 0.0 || better;
        }
        live.remember();
    }
    tree = live.plain();
}

}  // namespace spadework::graph
