#include "rates/cheapest_cover.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <random>

#include <doctest/doctest.h>

namespace spadework {
namespace {

struct Taken {
    std::int64_t price = 0;
    std::int64_t pieces = 0;
};

Taken sum_of(const std::vector<CoverItem>& items, const std::vector<int>& counts) {
    Taken taken;
    for (std::size_t i = 0; i < items.size(); ++i) {
        taken.price += counts[i] * items[i].price;
        taken.pieces += counts[i];
    }
    return taken;
}

std::int64_t capacity_of(const std::vector<CoverItem>& items, const std::vector<int>& counts) {
    std::int64_t capacity = 0;
    for (std::size_t i = 0; i < items.size(); ++i)
        capacity += counts[i] * items[i].capacity;
    return capacity;
}

/// Tries every combination of up to `need` pieces of each of three items.
Taken best_by_trying_all(const std::vector<CoverItem>& items, int need) {
    Taken best{std::numeric_limits<std::int64_t>::max(), 0};
    std::vector<int> counts(3, 0);
    for (counts[0] = 0; counts[0] <= need; ++counts[0]) {
        for (counts[1] = 0; counts[1] <= need; ++counts[1]) {
            for (counts[2] = 0; counts[2] <= need; ++counts[2]) {
                if (capacity_of(items, counts) < need) continue;
                const Taken taken = sum_of(items, counts);
                if (taken.price < best.price || (taken.price == best.price && taken.pieces < best.pieces)) best = taken;
            }
        }
    }
    return best;
}

}  // namespace

TEST_CASE("on random small needs the cover is as cheap and as few as trying every combination finds") {
    std::mt19937 random(11);
    const auto between = [&random](int a, int b) {
        return a + static_cast<int>(random() % static_cast<unsigned>(b - a + 1));
    };
    for (int round = 0; round < 300; ++round) {
        std::vector<CoverItem> items;
        for (int i = 0; i < 3; ++i)
            items.push_back({between(1, 7), between(0, 9)});
        const int need = between(1, 14);
        const auto counts = cheapest_cover(items, need);
        REQUIRE(counts);
        CHECK(capacity_of(items, *counts) >= need);
        const Taken best = best_by_trying_all(items, need);
        CHECK(sum_of(items, *counts).price == best.price);
        CHECK(sum_of(items, *counts).pieces == best.pieces);
    }
}

TEST_CASE("two sizes together may beat either alone") {
    // 30 ports: one of 24 and one of 8 for 100, two of 24 for 140, four of 8 for 120.
    CHECK(*cheapest_cover({{8, 30}, {24, 70}}, 30) == std::vector<int>{1, 1});
}

TEST_CASE("one more than a size holds takes another piece") {
    CHECK(*cheapest_cover({{8, 30}}, 8) == std::vector<int>{1});
    CHECK(*cheapest_cover({{8, 30}}, 9) == std::vector<int>{2});
}

TEST_CASE("no need takes nothing, and a need without any capacity cannot be met") {
    CHECK(*cheapest_cover({{8, 30}}, 0) == std::vector<int>{0});
    CHECK(cheapest_cover({}, 0)->empty());
    CHECK_FALSE(cheapest_cover({}, 1));
    CHECK_FALSE(cheapest_cover({{0, 30}, {-3, 1}}, 1));
}

TEST_CASE("a need of 100,000 is met, one more is refused") {
    CHECK(cheapest_cover({{1000, 1}}, 100000)->front() == 100);
    CHECK_FALSE(cheapest_cover({{1000, 1}}, 100001));
}

TEST_CASE("of equal prices fewer pieces are taken, and of equal pieces the earlier item") {
    CHECK(*cheapest_cover({{4, 10}, {8, 20}}, 8) == std::vector<int>{0, 1});
    CHECK(*cheapest_cover({{8, 20}, {9, 20}}, 8) == std::vector<int>{1, 0});
}

TEST_CASE("two needs at once are covered as cheaply as trying all combinations finds, and by as few pieces") {
    std::mt19937 random(11);
    const auto between = [&random](int least, int most) {
        return std::int64_t{std::uniform_int_distribution<int>(least, most)(random)};
    };
    for (int round = 0; round < 300; ++round) {
        std::vector<CoverItemOfTwo> items;
        for (int i = 0; i < 3; ++i)
            items.push_back({between(0, 4), between(0, 4), between(0, 9)});
        const std::int64_t first = between(0, 6), second = between(1, 6);
        std::optional<std::pair<std::int64_t, std::int64_t>> best;  // price, pieces
        for (std::int64_t a = 0; a <= 6; ++a) {
            for (std::int64_t b = 0; b <= 6; ++b) {
                for (std::int64_t c = 0; c <= 6; ++c) {
                    const std::int64_t n[] = {a, b, c};
                    std::int64_t covered_first = 0, covered_second = 0, price = 0;
                    for (std::size_t i = 0; i < 3; ++i) {
                        covered_first += n[i] * items[i].first;
                        covered_second += n[i] * items[i].second;
                        price += n[i] * items[i].price;
                    }
                    if (covered_first < first || covered_second < second) continue;
                    const std::pair taken{price, a + b + c};
                    best = best ? std::min(*best, taken) : taken;
                }
            }
        }
        const auto counts = cheapest_cover_of_two(items, first, second);
        REQUIRE(counts.has_value() == best.has_value());
        if (!counts) continue;
        std::pair<std::int64_t, std::int64_t> found{0, 0};
        std::int64_t covered_first = 0, covered_second = 0;
        for (std::size_t i = 0; i < 3; ++i) {
            found.first += (*counts)[i] * items[i].price;
            found.second += (*counts)[i];
            covered_first += (*counts)[i] * items[i].first;
            covered_second += (*counts)[i] * items[i].second;
        }
        CHECK(found == *best);
        CHECK(covered_first >= first);
        CHECK(covered_second >= second);
    }
}

TEST_CASE("without a second need two are covered as one is") {
    const std::vector<CoverItemOfTwo> items = {{8, 0, 300}, {24, 4, 700}};
    for (std::int64_t need = 0; need < 60; ++need)
        CHECK(cheapest_cover_of_two(items, need, 0) == cheapest_cover({{8, 300}, {24, 700}}, need));
    CHECK_FALSE(cheapest_cover_of_two(items, 100'000, 100'000));
}

}  // namespace spadework
