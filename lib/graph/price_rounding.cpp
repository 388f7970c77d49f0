#include "graph/price_rounding.hpp"

#include <algorithm>
#include <cmath>

#include "graph/saturating.hpp"

namespace spadework::graph {

namespace {

constexpr double kRoom = 1e17;  ///< Sums of figures in parts stay below this.
constexpr std::int64_t kMostParts = std::int64_t{1} << 24;

/// Makes one purse's prices sum to exactly the opening cost, or to less where a price is too small to matter.
void settle(std::vector<Cost>& prices, WideCost opening_in_parts) {
    WideCost left = opening_in_parts;
    for (Cost& price : prices) {
        if (price > left) price = static_cast<Cost>(left);
        left -= price;
    }
    const auto rounding = static_cast<WideCost>(prices.size()) + opening_in_parts / (WideCost{1} << 22);
    if (left > 0 && left <= rounding) *std::max_element(prices.begin(), prices.end()) += static_cast<Cost>(left);
}

std::vector<std::size_t> prices_of_each_demand(const PursePrices& prices, std::size_t demands) {
    std::vector<std::size_t> count(demands, 0);
    for (const std::uint32_t d : prices.demand)
        ++count[d];
    return count;
}

}  // namespace

std::int64_t parts_for(double largest) {
    std::int64_t parts = 1;
    while (parts < kMostParts && largest * 2.0 * static_cast<double>(parts) < kRoom)
        parts *= 2;
    return parts;
}

EdgePriceSet rounded(const SearchNetwork& network, const SharedCostProblem& problem, const PursePrices& prices,
                     std::int64_t parts) {
    EdgePriceSet whole_prices(problem.demands.size());
    if (prices.empty()) return whole_prices;
    const std::vector<std::size_t> count = prices_of_each_demand(prices, problem.demands.size());
    for (std::size_t d = 0; d < count.size(); ++d)
        whole_prices[d].reserve(network.one_measure ? count[d] : 2 * count[d]);
    std::vector<Cost> in_purse;
    for (std::size_t purse = 0; purse + 1 < prices.first.size(); ++purse) {
        const EdgeId edge = edge_of_purse(network, purse);
        in_purse.clear();
        for (std::size_t i = prices.first[purse]; i < prices.first[purse + 1]; ++i)
            in_purse.push_back(
                static_cast<Cost>(std::floor(std::min(prices.price[i] * static_cast<double>(parts), 9e18))));
        settle(in_purse, static_cast<WideCost>(problem.edges[edge].opening) * parts);
        for (std::size_t i = 0; i < in_purse.size(); ++i) {
            if (in_purse[i] < 1) continue;
            std::vector<EdgePrice>& list = whole_prices[prices.demand[prices.first[purse] + i]];
            list.push_back({edge, in_purse[i], network.one_measure && purse % 2 == 1});
            if (!network.one_measure) list.push_back({edge, in_purse[i], true});
        }
    }
    return whole_prices;
}

}  // namespace spadework::graph
