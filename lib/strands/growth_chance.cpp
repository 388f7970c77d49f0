#include "strands/growth_chance.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "strands/strand_need.hpp"

namespace spadework {

namespace {

/// Terms smaller than this change no sum of chances.
constexpr double nothing = 1e-18;

/// The chance of the likeliest number. The closed form loses digits only where no term is large.
double chance_of_mode(double mean, double mode) {
    return std::exp(mode * std::log(mean) - mean - std::lgamma(mode + 1));
}

Distribution convolved(const Distribution& a, const Distribution& b) {
    Distribution sum(a.size() + b.size() - 1, 0.0);
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (a[i] <= 0) continue;
        for (std::size_t j = 0; j < b.size(); ++j)
            sum[i + j] += a[i] * b[j];
    }
    return sum;
}

/// Each event counts `times`.
Distribution multiplied(const Distribution& of_one, int times) {
    Distribution many((of_one.size() - 1) * static_cast<std::size_t>(times) + 1, 0.0);
    for (std::size_t k = 0; k < of_one.size(); ++k)
        many[k * static_cast<std::size_t>(times)] = of_one[k];
    return many;
}

}  // namespace

Distribution weighted_poisson_binomial(const std::vector<double>& chances, const std::vector<int>& sizes) {
    Distribution distribution = {1.0};
    for (std::size_t i = 0; i < chances.size(); ++i) {
        const auto size = static_cast<std::size_t>(std::max(0, sizes[i]));
        Distribution next(distribution.size() + size, 0.0);
        for (std::size_t k = 0; k < distribution.size(); ++k) {
            next[k] += distribution[k] * (1.0 - chances[i]);
            next[k + size] += distribution[k] * chances[i];
        }
        distribution = std::move(next);
    }
    return distribution;
}

Distribution poisson(double mean) {
    if (mean <= 0) return {1.0};
    const auto mode = static_cast<std::size_t>(mean);
    Distribution chances(mode + 1, 0.0);
    chances[mode] = mean < 1 ? std::exp(-mean) : chance_of_mode(mean, static_cast<double>(mode));
    for (std::size_t k = mode; k > 0 && chances[k] > nothing; --k)
        chances[k - 1] = chances[k] * static_cast<double>(k) / mean;
    while (chances.back() > nothing)
        chances.push_back(chances.back() * mean / static_cast<double>(chances.size()));
    const double sum = std::accumulate(chances.begin(), chances.end(), 0.0);
    for (double& chance : chances)
        chance /= sum;
    return chances;
}

double chance_at_most(const Distribution& distribution, int most) {
    if (most < 0) return 0.0;
    const auto count = std::min(distribution.size(), static_cast<std::size_t>(most) + 1);
    return std::min(
        1.0, std::accumulate(distribution.begin(), distribution.begin() + static_cast<std::ptrdiff_t>(count), 0.0));
}

int least_with_chance(const Distribution& distribution, double chance) {
    double sum = 0;
    for (std::size_t k = 0; k < distribution.size(); ++k) {
        sum += distribution[k];
        if (sum >= chance) return static_cast<int>(k);
    }
    return static_cast<int>(distribution.size()) - 1;
}

Distribution named_growth(const Scenario& scenario, int year) {
    std::vector<double> chances;
    std::vector<int> sizes;
    for (const FutureBuilding& building : scenario.growth.buildings) {
        if (building.year > std::min(year, scenario.growth.horizon_years)) continue;
        chances.push_back(building.chance);
        sizes.push_back(building.links * strands_per_link(scenario.rules.strand_use));
    }
    return weighted_poisson_binomial(chances, sizes);
}

Distribution all_growth(const Scenario& scenario, int year) {
    const double mean = scenario.growth.unnamed_links_per_year * year;
    const Distribution unnamed = multiplied(poisson(mean), strands_per_link(scenario.rules.strand_use));
    return convolved(unnamed, named_growth(scenario, year));
}

}  // namespace spadework
