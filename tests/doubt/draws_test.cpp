#include "doubt/draws.hpp"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "doubt/statistics.hpp"

using namespace spadework;

TEST_CASE("any part of the draws is that part of all of them") {
    const Draws draws(5, 1000, 7);
    const std::vector<double> all = draws.between(0, 1000);
    REQUIRE(all.size() == 5000);
    for (const auto& [first, last] : {std::pair(0, 1), {0, 250}, {250, 500}, {333, 335}, {999, 1000}, {500, 500}}) {
        const std::vector<double> part = draws.between(first, last);
        CHECK(part == std::vector<double>(all.begin() + first * 5, all.begin() + last * 5));
    }
}

TEST_CASE("all quantiles lie strictly between 0 and 1, and every driver has the mean and variance of a uniform one") {
    const Draws draws(40, 8192, 1);
    const std::vector<double> all = draws.between(0, 8192);
    for (std::size_t d = 0; d < 40; ++d) {
        std::vector<double> own;
        for (std::size_t i = d; i < all.size(); i += 40)
            own.push_back(all[i]);
        CHECK(*std::min_element(own.begin(), own.end()) > 0);
        CHECK(*std::max_element(own.begin(), own.end()) < 1);
        CHECK(mean_of(own) == doctest::Approx(0.5).epsilon(0.002));
        CHECK(variance_of(own) == doctest::Approx(1 / 12.0).epsilon(0.005));
    }
}

TEST_CASE("every replicate puts one of its points in each of as many equal parts, for every driver") {
    constexpr int in_each = 64;
    const Draws draws(6, in_each * Draws::replicates, 3);
    const std::vector<double> all = draws.between(0, draws.count());
    for (int replicate = 0; replicate < Draws::replicates; ++replicate) {
        for (std::size_t d = 0; d < 6; ++d) {
            std::vector<int> seen(in_each, 0);
            for (int i = 0; i < in_each; ++i) {
                const auto draw = static_cast<std::size_t>(i * Draws::replicates + replicate);
                ++seen[static_cast<std::size_t>(all[draw * 6 + d] * in_each)];
            }
            // The sequence leaves its first point out, so that one part may be missed and another met twice.
            CHECK(std::count(seen.begin(), seen.end(), 1) >= in_each - 2);
        }
    }
}

TEST_CASE("another random seed gives other draws, the same one the same") {
    CHECK(Draws(3, 100, 1).between(0, 100) == Draws(3, 100, 1).between(0, 100));
    CHECK(Draws(3, 100, 1).between(0, 100) != Draws(3, 100, 2).between(0, 100));
    CHECK(Draws(3, 100, 1).fresh(0) != Draws(3, 100, 1).fresh(1));
    CHECK(Draws(3, 100, 1).fresh(0) == Draws(3, 200, 1).fresh(0));
}

TEST_CASE("drivers beyond those that direction numbers exist for are drawn at random, within 0 and 1") {
    const Draws draws(3700, 32, 1);
    const std::vector<double> all = draws.between(0, 32);
    REQUIRE(all.size() == 3700 * 32);
    CHECK(*std::min_element(all.begin(), all.end()) > 0);
    CHECK(*std::max_element(all.begin(), all.end()) < 1);
    CHECK(draws.between(5, 6) == std::vector<double>(all.begin() + 5 * 3700, all.begin() + 6 * 3700));
}

TEST_CASE("the integral of a smooth function of five drivers is met far better than at random") {
    const Draws draws(5, 4096, 1);
    const std::vector<double> all = draws.between(0, 4096);
    std::vector<double> values;
    for (std::size_t i = 0; i < all.size(); i += 5) {
        double product = 1;
        for (std::size_t d = 0; d < 5; ++d)
            product *= 1 + 0.5 * (all[i + d] - 0.5);
        values.push_back(product);
    }
    // At random the standard error would be 0.005; the integral is 1.
    CHECK(mean_of(values) == doctest::Approx(1).epsilon(0.0006));
}
