#include "doubt/statistics.hpp"

#include <algorithm>
#include <cmath>

#include <boost/math/distributions/students_t.hpp>
#include <doctest/doctest.h>

using namespace spadework;

namespace {

/// A fixed sample with ties, out of order. tests/doubt/figures_of_statistics.py made the figures below from it.
const std::vector<double> a = {3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5, 8, 9, 7, 9};
const std::vector<double> b = {2, 7, 1, 8, 2, 8, 1, 8, 2, 8, 4, 5, 9, 0, 4};

}  // namespace

TEST_CASE("quantiles are those of a general statistics package") {
    std::vector<double> ascending = a;
    std::sort(ascending.begin(), ascending.end());
    CHECK(sample_quantile(ascending, 0.1) == doctest::Approx(1.4).epsilon(1e-12));
    CHECK(sample_quantile(ascending, 0.33) == doctest::Approx(3.62).epsilon(1e-12));
    CHECK(sample_quantile(ascending, 0.5) == 5);
    CHECK(sample_quantile(ascending, 0.8) == doctest::Approx(8.2).epsilon(1e-12));
    CHECK(sample_quantile(ascending, 0) == 1);
    CHECK(sample_quantile(ascending, 1) == 9);
    CHECK(sample_quantile({7}, 0.3) == 7);
}

TEST_CASE("mean and variance are those of a general statistics package") {
    CHECK(mean_of(a) == doctest::Approx(5.133333333333334).epsilon(1e-14));
    CHECK(variance_of(a) == doctest::Approx(7.980952380952381).epsilon(1e-14));
    CHECK(variance_of({5}) == 0);
    CHECK(mean_of({}) == 0);
}

TEST_CASE("the interval of a mean is Student's") {
    CHECK(half_width_95(a) == doctest::Approx(1.56446494264918).epsilon(1e-10));
    CHECK(half_width_95({4}) == 0);
    CHECK(half_width_95({4, 4, 4}) == 0);
}

TEST_CASE("ranks share ties, and their correlation is that of a general statistics package") {
    CHECK(ranks_of({30, 10, 20, 10}) == std::vector<double>{4, 1.5, 3, 1.5});
    CHECK(rank_correlation(a, b) == doctest::Approx(0.17916174391114706).epsilon(1e-12));
    CHECK(rank_correlation(a, a) == doctest::Approx(1));
    CHECK(rank_correlation({1, 2, 3}, {5, 5, 5}) == 0);
    CHECK(rank_correlation({1, 2, 3}, {-1, -8, -27}) == doctest::Approx(-1));
}

TEST_CASE("first-order indices of a linear model come out at the shares of its variance") {
    // y = 3 x1 + x2 with both uniform: shares 9/10 and 1/10.
    constexpr int n = 20'000;
    std::vector<double> x1;
    std::vector<double> x2;
    std::vector<double> x3;
    std::vector<double> y;
    for (int i = 0; i < n; ++i) {
        x1.push_back(std::fmod(0.5 + i * 0.7548776662466927, 1.0));
        x2.push_back(std::fmod(0.5 + i * 0.5698402909980532, 1.0));
        x3.push_back(std::fmod(0.5 + i * 0.6180339887498949, 1.0));
        y.push_back(3 * x1.back() + x2.back());
    }
    CHECK(first_order_index(x1, y) == doctest::Approx(0.9).epsilon(0.005));
    CHECK(first_order_index(x2, y) == doctest::Approx(0.1).epsilon(0.05));
    CHECK(std::abs(first_order_index(x3, y)) < 0.005);
    CHECK(first_order_index(x1, std::vector<double>(x1.size(), 4)) == 0);
}

TEST_CASE("a first-order index is the share that a general statistics package finds between classes") {
    // 600 values make 4 classes of 150: by figures_of_statistics.py, from an analysis of variance.
    std::vector<double> x;
    std::vector<double> y;
    for (int i = 0; i < 600; ++i) {
        x.push_back((i + 0.5) / 600);
        y.push_back((i * i) % 37 + (i >= 300 ? 9 : 0));
    }
    CHECK(first_order_index(x, y) == doctest::Approx(0.13299943016339044).epsilon(1e-12));
}

TEST_CASE("a first-order index sees what a rank correlation does not") {
    std::vector<double> x;
    std::vector<double> y;
    for (int i = 0; i <= 6000; ++i) {
        x.push_back((i + 0.5) / 6001);
        y.push_back((i - 3000.0) * (i - 3000.0));
    }
    CHECK(std::abs(rank_correlation(x, y)) < 1e-9);
    CHECK(first_order_index(x, y) > 0.99);
}
