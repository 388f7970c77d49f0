#include "graph/known_prices.hpp"

#include "graph/cheapest_way.hpp"

namespace spadework::graph {

namespace {

/// Looks for one demand's cheapest priced way to the root after another.
class PricedWays {
public:
    PricedWays(const SearchNetwork& network, VertexId root, const std::vector<PathLength>& to_root)
        : network_(network),
          root_(root),
          to_root_(to_root),
          price_(2 * network.edge_count(), 0.0),
          way_(network, to_root) {}

    /// By how much it exceeds the way without prices; 0 where there is none.
    double excess(std::size_t demand, const std::vector<ArcPrice>& prices) {
        for (const ArcPrice& p : prices)
            price_[p.arc] = p.price;
        const double cost = cost_of_way(demand);
        for (const ArcPrice& p : prices)
            price_[p.arc] = 0.0;
        return cost;
    }

private:
    double cost_of_way(std::size_t demand) {
        const VertexId at = network_.demand_at[demand];
        const PathRate& rate = network_.rate[demand];
        const bool found = way_.find(
            at, rate, [this](VertexId v) { return v == root_; }, [](VertexId) { return PathLength(); },
            [this](EdgeId e, VertexId from) { return price_[arc_from(network_, e, from)]; });
        double cost = found ? -charge(rate, to_root_[at]) : 0.0;
        for (std::size_t i = 0; i < way_.edges().size(); ++i) {
            const EdgeId edge = way_.edges()[i];
            cost += charge(rate, network_.reach[edge]) + price_[arc_from(network_, edge, way_.way()[i])];
        }
        return cost;
    }

    const SearchNetwork& network_;
    VertexId root_;
    const std::vector<PathLength>& to_root_;
    std::vector<double> price_;  ///< By arc.
    CheapestWay way_;
};

}  // namespace

std::vector<AscentPrices> as_ascent(const SearchNetwork& network, VertexId root, const std::vector<PathLength>& to_root,
                                    const KnownPrices& known) {
    PricedWays ways(network, root, to_root);
    std::vector<AscentPrices> ascent(known.prices.size());
    for (std::size_t d = 0; d < ascent.size(); ++d) {
        for (const EdgePrice& p : known.prices[d]) {
            const double price = static_cast<double>(p.price) / static_cast<double>(known.parts);
            ascent[d].prices.push_back({2 * p.edge + (p.backwards ? 1 : 0), price});
        }
        ascent[d].paid = ways.excess(d, ascent[d].prices);
    }
    return ascent;
}

}  // namespace spadework::graph
