#include "graph/known_prices.hpp"

#include <algorithm>
#include <limits>

#include "graph/label_heap.hpp"

namespace spadework::graph {

namespace {

/// Looks for one demand's priced distance after another, from the demand towards the root.
class DistanceSearch {
public:
    DistanceSearch(const SearchNetwork& network, VertexId root, const std::vector<PathLength>& to_root)
        : network_(network),
          root_(root),
          to_root_(to_root),
          price_(2 * network.edge_count(), 0.0),
          label_(static_cast<std::size_t>(network.vertex_count), kFar),
          queue_(static_cast<std::size_t>(network.vertex_count)) {}

    /// By how much it exceeds the distance without prices.
    double of(std::size_t demand, const std::vector<ArcPrice>& prices) {
        for (const ArcPrice& p : prices)
            price_[p.arc] = p.price;
        const double distance = search(network_.demand_at[demand], network_.rate[demand]);
        for (const ArcPrice& p : prices)
            price_[p.arc] = 0.0;
        return distance;
    }

private:
    static constexpr double kFar = std::numeric_limits<double>::infinity();

    double search(VertexId from, const PathRate& rate) {
        std::fill(label_.begin(), label_.end(), kFar);
        queue_.clear();
        label_[from] = 0.0;
        queue_.push_or_lower(from, 0.0);
        while (!queue_.empty()) {
            const VertexId here = queue_.pop();
            if (here == root_) return label_[here];
            for (const Step& step : network_.steps.from(here)) {
                const double own = charge(rate, network_.reach[step.edge]) + charge(rate, to_root_[step.to]) -
                                   charge(rate, to_root_[here]);
                const double along = label_[here] + std::max(own, 0.0) + price_[arc_from(network_, step.edge, step.to)];
                if (along >= label_[step.to]) continue;
                label_[step.to] = along;
                queue_.push_or_lower(step.to, along);
            }
        }
        return 0.0;
    }

    const SearchNetwork& network_;
    VertexId root_;
    const std::vector<PathLength>& to_root_;
    std::vector<double> price_;  ///< By arc.
    std::vector<double> label_;
    LabelHeap<double> queue_;
};

}  // namespace

std::vector<AscentPrices> as_ascent(const SearchNetwork& network, VertexId root, const std::vector<PathLength>& to_root,
                                    const KnownPrices& known) {
    DistanceSearch distance(network, root, to_root);
    std::vector<AscentPrices> ascent(known.prices.size());
    for (std::size_t d = 0; d < ascent.size(); ++d) {
        for (const EdgePrice& p : known.prices[d]) {
            const double price = static_cast<double>(p.price) / static_cast<double>(known.parts);
            ascent[d].prices.push_back({2 * p.edge + (p.backwards ? 1 : 0), price});
        }
        ascent[d].paid = distance.of(d, ascent[d].prices);
    }
    return ascent;
}

}  // namespace spadework::graph
