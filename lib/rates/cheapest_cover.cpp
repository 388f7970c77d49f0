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

constexpr std::int64_t most_pairs = 4'000'000;
constexpr std::size_t most_tables = 8;

bool better(std::int64_t price, std::int64_t pieces, const Best& than) {
    if (than.price < 0 || price != than.price) return than.price < 0 || price < than.price;
    return pieces < than.pieces;
}

/// The best ways to cover every need up to the largest asked for so far.
class CoverTable {
public:
    explicit CoverTable(const std::vector<CoverItem>& items) : items_(items), best_(1) { best_.front().price = 0; }

    [[nodiscard]] bool is_for(const std::vector<CoverItem>& items) const { return items_ == items; }

    std::optional<std::vector<int>> counts(std::int64_t need) {
        while (static_cast<std::int64_t>(best_.size()) <= need)
            best_.push_back(next());
        if (best_[static_cast<std::size_t>(need)].price < 0) return std::nullopt;
        std::vector<int> counts(items_.size(), 0);
        for (std::int64_t left = need; left > 0;) {
            const std::size_t item = best_[static_cast<std::size_t>(left)].last;
            ++counts[item];
            left = std::max<std::int64_t>(0, left - items_[item].capacity);
        }
        return counts;
    }

private:
    [[nodiscard]] Best next() const {
        const auto need = static_cast<std::int64_t>(best_.size());
        Best here;
        for (std::size_t i = 0; i < items_.size(); ++i) {
            if (items_[i].capacity <= 0) continue;
            const Best& rest = best_[static_cast<std::size_t>(std::max<std::int64_t>(0, need - items_[i].capacity))];
            if (rest.price < 0) continue;
            const std::int64_t price = rest.price + items_[i].price;
            if (better(price, rest.pieces + 1, here)) here = {price, rest.pieces + 1, i};
        }
        return here;
    }

    std::vector<CoverItem> items_;
    std::vector<Best> best_;  ///< By need.
};

/// The table of this thread for the items: one of those asked for last, as needs for the same items come in a row.
CoverTable& table_for(const std::vector<CoverItem>& items) {
    thread_local std::vector<CoverTable> tables;
    const auto known =
        std::find_if(tables.begin(), tables.end(), [&](const CoverTable& table) { return table.is_for(items); });
    if (known == tables.end()) {
        if (tables.size() == most_tables) tables.pop_back();
        tables.emplace(tables.begin(), items);
    } else {
        std::rotate(tables.begin(), known, known + 1);
    }
    return tables.front();
}

/// The best way to cover each pair of needs up to the two that are asked for.
class CoverOfTwo {
public:
    CoverOfTwo(const std::vector<CoverItemOfTwo>& items, std::int64_t first, std::int64_t second)
        : items_(items), first_(first), second_(second) {
        best_.resize(static_cast<std::size_t>((first + 1) * (second + 1)));
        best_[0].price = 0;
        for (std::int64_t a = 0; a <= first; ++a) {
            for (std::int64_t b = a == 0 ? 1 : 0; b <= second; ++b)
                improve(a, b);
        }
    }

    [[nodiscard]] std::optional<std::vector<int>> counts() const {
        if (best_.back().price < 0) return std::nullopt;
        std::vector<int> counts(items_.size(), 0);
        for (std::int64_t a = first_, b = second_; a > 0 || b > 0;) {
            const std::size_t item = best_[at(a, b)].last;
            ++counts[item];
            a = std::max<std::int64_t>(0, a - items_[item].first);
            b = std::max<std::int64_t>(0, b - items_[item].second);
        }
        return counts;
    }

private:
    [[nodiscard]] std::size_t at(std::int64_t a, std::int64_t b) const {
        return static_cast<std::size_t>(a * (second_ + 1) + b);
    }

    void improve(std::int64_t a, std::int64_t b) {
        Best& here = best_[at(a, b)];
        for (std::size_t i = 0; i < items_.size(); ++i) {
            const std::int64_t before_a = std::max<std::int64_t>(0, a - items_[i].first);
            const std::int64_t before_b = std::max<std::int64_t>(0, b - items_[i].second);
            if (before_a == a && before_b == b) continue;
            const Best& rest = best_[at(before_a, before_b)];
            if (rest.price < 0) continue;
            const std::int64_t price = rest.price + items_[i].price;
            if (better(price, rest.pieces + 1, here)) here = {price, rest.pieces + 1, i};
        }
    }

    const std::vector<CoverItemOfTwo>& items_;
    std::int64_t first_;
    std::int64_t second_;
    std::vector<Best> best_;
};

}  // namespace

std::optional<std::vector<int>> cheapest_cover(const std::vector<CoverItem>& items, std::int64_t need) {
    if (need <= 0) return std::vector<int>(items.size(), 0);
    if (need > largest_need) return std::nullopt;
    return table_for(items).counts(need);
}

std::optional<std::vector<int>> cheapest_cover_of_two(const std::vector<CoverItemOfTwo>& items, std::int64_t first,
                                                      std::int64_t second) {
    if (second <= 0) {
        std::vector<CoverItem> alone;
        for (const CoverItemOfTwo& item : items)
            alone.push_back({item.first, item.price});
        return cheapest_cover(alone, first);
    }
    const std::int64_t most_first = std::max<std::int64_t>(0, first);
    if (most_first > largest_need || second > largest_need || (most_first + 1) * (second + 1) > most_pairs)
        return std::nullopt;
    return CoverOfTwo(items, most_first, second).counts();
}

}  // namespace spadework
