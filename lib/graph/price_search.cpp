#include "graph/price_search.hpp"

#include "graph/price_engine.hpp"

namespace spadework::graph {

namespace {

constexpr std::size_t kLargeWork = 4'000'000;  ///< Demands times edges.

}  // namespace

std::unique_ptr<PriceSearch> make_price_search(const SearchNetwork& network, WorkerTeam& team, const StepRule& rule) {
    if (network.demand_at.size() * network.edge_count() < kLargeWork)
        return std::make_unique<PriceEngine<double>>(network, team, rule);
    return std::make_unique<PriceEngine<float>>(network, team, rule);
}

}  // namespace spadework::graph
