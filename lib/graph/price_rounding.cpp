#include "graph/price_rounding.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace spadework::graph {

namespace {

constexpr double kRoom = 1e17;  ///< Sums of figures in parts stay below this.
constexpr std::int64_t kMostParts = std::int64_t{1} << 24;

/// Where each arc's rounded prices are.
struct Place {
    ArcId arc = 0;
    std::size_t demand = 0;
    std::size_t index = 0;
};

/// Makes one arc's prices sum to exactly the opening cost, or to less where a price is too small to matter.
void settle(EdgePriceSet& prices, const std::vector<Place>& places, std::size_t begin, std::size_t end,
            WideCost opening_in_parts) {
    const auto price_of = [&](const Place& place) -> Cost& { return prices[place.demand][place.index].price; };
    WideCost left = opening_in_parts;
    const Place* highest = nullptr;
    for (std::size_t i = begin; i < end; ++i) {
        Cost& price = price_of(places[i]);
        if (price > left) price = static_cast<Cost>(left);
        left -= price;
        if (highest == nullptr || price > price_of(*highest)) highest = &places[i];
    }
    const auto rounding = static_cast<WideCost>(end - begin) + opening_in_parts / (WideCost{1} << 40);
    if (left > 0 && left <= rounding) price_of(*highest) += static_cast<Cost>(left);
}

}  // namespace

std::int64_t parts_for(double largest) {
    std::int64_t parts = 1;
    while (parts < kMostParts && largest * 2.0 * static_cast<double>(parts) < kRoom)
        parts *= 2;
    return parts;
}

EdgePriceSet rounded(const SharedCostProblem& problem, const PriceSet& prices, std::int64_t parts) {
    EdgePriceSet whole_prices(prices.size());
    std::vector<Place> places;
    for (std::size_t d = 0; d < prices.size(); ++d) {
        for (const ArcPrice& p : prices[d]) {
            const double whole = std::floor(std::min(p.price * static_cast<double>(parts), 9e18));
            if (whole < 1.0) continue;
            places.push_back({p.arc, d, whole_prices[d].size()});
            whole_prices[d].push_back({edge_of(p.arc), static_cast<Cost>(whole), p.arc % 2 == 1});
        }
    }
    std::sort(places.begin(), places.end(), [](const Place& a, const Place& b) {
        return std::tie(a.arc, a.demand, a.index) < std::tie(b.arc, b.demand, b.index);
    });
    for (std::size_t begin = 0; begin < places.size();) {
        std::size_t end = begin;
        while (end < places.size() && places[end].arc == places[begin].arc)
            ++end;
        const WideCost opening = problem.edges[edge_of(places[begin].arc)].opening;
        settle(whole_prices, places, begin, end, opening * parts);
        begin = end;
    }
    return whole_prices;
}

}  // namespace spadework::graph
