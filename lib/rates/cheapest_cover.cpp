#include "rates/cheapest_cover.hpp"

#include <algorithm>

namespace spadework {

namespace {

constexpr std::int64_t largest_need = 100000;

/// Best way to cover a need: its price, its pieces, and the item taken last.
struct Best {
    std::int64_t price = -1;
    std::int64_t pieces = 0;
    std::size_t last = 0;
};

bool better(std::int64_t price, std::int64_t pieces, const Best& than) {
    if (than.price < 0 || price != than.price) return than.price < 0 || price < than.price;
    return pieces < than.pieces;
}

}  // namespace

std::optional<std::vector<int>> cheapest_cover(const std::vector<CoverItem>& items, std::int64_t need) {
    std::vector<int> counts(items.size(), 0);
    if (need <= 0) return counts;
    if (need > largest_need) return std::nullopt;
    std::vector<Best> best(static_cast<std::size_t>(need) + 1);
    best[0].price = 0;
    for (std::int64_t covered = 1; covered <= need; ++covered) {
        Best& here = best[static_cast<std::size_t>(covered)];
        for (std::size_t i = 0; i < items.size(); ++i) {
            if (items[i].capacity <= 0) continue;
            const Best& rest = best[static_cast<std::size_t>(std::max<std::int64_t>(0, covered - items[i].capacity))];
            if (rest.price < 0) continue;
            const std::int64_t price = rest.price + items[i].price;
            if (better(price, rest.pieces + 1, here)) here = {price, rest.pieces + 1, i};
        }
    }
    if (best.back().price < 0) return std::nullopt;
    for (std::int64_t left = need; left > 0;) {
        const std::size_t item = best[static_cast<std::size_t>(left)].last;
        ++counts[item];
        left = std::max<std::int64_t>(0, left - items[item].capacity);
    }
    return counts;
}

}  // namespace spadework
