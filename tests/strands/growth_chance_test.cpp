#include "strands/growth_chance.hpp"

#include <cmath>
#include <tuple>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

namespace spadework {
namespace {

/// P(X <= from), P(X <= from + 1), … against a row of a table of four places.
void check_row(const Distribution& distribution, const std::vector<double>& table, int from = 0) {
    for (std::size_t i = 0; i < table.size(); ++i)
        CHECK(std::abs(chance_at_most(distribution, from + static_cast<int>(i)) - table[i]) < 0.00005);
}

void check_least(double mean, int at_90, int at_95, int at_99) {
    const Distribution distribution = poisson(mean);
    CHECK(least_with_chance(distribution, 0.90) == at_90);
    CHECK(least_with_chance(distribution, 0.95) == at_95);
    CHECK(least_with_chance(distribution, 0.99) == at_99);
}

Distribution binomial(int n, double p) {
    const auto size = static_cast<std::size_t>(n);
    return weighted_poisson_binomial(std::vector<double>(size, p), std::vector<int>(size, 1));
}

}  // namespace

TEST_CASE("Poisson sums are those of the table (NIST/SEMATECH e-Handbook 1.3.6.6.19, section from memory)") {
    check_row(poisson(1), {0.3679, 0.7358, 0.9197, 0.9810, 0.9963, 0.9994});
    check_row(poisson(2), {0.1353, 0.4060, 0.6767, 0.8571, 0.9473, 0.9834, 0.9955});
    check_row(poisson(3), {0.0498, 0.1991, 0.4232, 0.6472, 0.8153, 0.9161, 0.9665, 0.9881, 0.9962});
    check_row(poisson(5),
              {0.0067, 0.0404, 0.1247, 0.2650, 0.4405, 0.6160, 0.7622, 0.8666, 0.9319, 0.9682, 0.9863, 0.9945});
    check_row(poisson(10), {0.5830}, 10);
    check_row(poisson(10), {0.7916}, 12);
}

TEST_CASE("sizes for 90, 95 and 99 % are those of the Poisson table") {
    check_least(0.5, 1, 2, 3);
    check_least(1, 2, 3, 4);
    check_least(3, 5, 6, 8);
    check_least(4, 7, 8, 9);
    check_least(5, 8, 9, 11);
    check_least(8, 12, 13, 15);
    check_least(10, 14, 15, 18);
}

TEST_CASE("with 2 expected 4 are enough in 94.73 %, so that 95 % take 5: nothing is rounded up to a target") {
    CHECK(std::abs(chance_at_most(poisson(2), 4) - 0.9473) < 0.00005);
    check_least(2, 4, 5, 6);
}

TEST_CASE("95 % sizes are those of the binomial table (NIST/SEMATECH e-Handbook 1.3.6.6.18, section from memory)") {
    CHECK(least_with_chance(binomial(10, 0.1), 0.95) == 3);
    CHECK(least_with_chance(binomial(10, 0.3), 0.95) == 5);
    CHECK(least_with_chance(binomial(10, 0.5), 0.95) == 8);
    CHECK(least_with_chance(binomial(20, 0.05), 0.95) == 3);
    CHECK(least_with_chance(binomial(20, 0.1), 0.95) == 4);
    CHECK(least_with_chance(binomial(20, 0.25), 0.95) == 8);
}

TEST_CASE("Poisson chances sum to one and have their mean, from next to nothing to a hundred thousand") {
    for (const double mean : {1e-9, 0.3, 1.0, 57.25, 900.0, 1e5}) {
        const Distribution distribution = poisson(mean);
        double sum = 0;
        double first_moment = 0;
        for (std::size_t k = 0; k < distribution.size(); ++k) {
            sum += distribution[k];
            first_moment += static_cast<double>(k) * distribution[k];
        }
        CHECK(sum == doctest::Approx(1).epsilon(1e-12));
        CHECK(first_moment == doctest::Approx(mean).epsilon(1e-9));
    }
    CHECK(poisson(0) == Distribution{1.0});
}

TEST_CASE("named and unnamed growth together are what trying every outcome gives") {
    Scenario site;
    site.growth.horizon_years = 6;
    site.growth.unnamed_links_per_year = 0.4;
    for (const auto& [chance, year, links] :
         std::vector<std::tuple<double, int, int>>{{0.5, 2, 1}, {0.25, 4, 3}, {0.9, 7, 1}}) {
        FutureBuilding building;
        building.chance = chance;
        building.year = year;
        building.links = links;
        site.growth.buildings.push_back(building);
    }
    // By year 5 two of the three may be there; the third is due beyond the horizon. Two strands a link.
    const Distribution all = all_growth(site, 5);
    for (int k = 0; k <= 12; ++k) {
        double expected = 0;
        for (const auto& [chance, links] :
             std::vector<std::pair<double, int>>{{0.5 * 0.75, 0}, {0.5 * 0.75, 1}, {0.5 * 0.25, 3}, {0.125, 4}}) {
            const int unnamed = k - links;
            if (unnamed >= 0) expected += chance * std::exp(-2.0) * std::pow(2.0, unnamed) / std::tgamma(unnamed + 1);
        }
        CHECK(all[static_cast<std::size_t>(2 * k)] == doctest::Approx(expected).epsilon(1e-9));
        CHECK(all[static_cast<std::size_t>(2 * k + 1)] == 0);
    }
}

TEST_CASE("nothing has grown in year 0, save what is due at once") {
    Scenario site;
    site.growth.unnamed_links_per_year = 3;
    CHECK(all_growth(site, 0) == Distribution{1.0});
    FutureBuilding building;
    building.chance = 1;
    building.links = 1;
    site.growth.buildings = {building};
    CHECK(chance_at_most(all_growth(site, 0), 1) == 0);
}

TEST_CASE("a negative number is never enough") {
    CHECK(chance_at_most({1.0}, -1) == 0);
}

}  // namespace spadework
