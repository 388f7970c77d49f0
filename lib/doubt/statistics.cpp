#include "doubt/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <boost/math/distributions/students_t.hpp>

namespace spadework {

namespace {

std::vector<std::size_t> ascending_order(const std::vector<double>& values) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&values](std::size_t a, std::size_t b) { return values[a] < values[b]; });
    return order;
}

/// Divided by n.
double central_moment(const std::vector<double>& a, const std::vector<double>& b, double mean_a, double mean_b) {
    double sum = 0;
    for (std::size_t i = 0; i < a.size(); ++i)
        sum += (a[i] - mean_a) * (b[i] - mean_b);
    return sum / static_cast<double>(a.size());
}

}  // namespace

double sample_quantile(const std::vector<double>& ascending, double share) {
    const double position = share * static_cast<double>(ascending.size() - 1);
    const auto below = std::min(static_cast<std::size_t>(position), ascending.size() - 1);
    const std::size_t above = std::min(below + 1, ascending.size() - 1);
    const double beyond = position - static_cast<double>(below);
    return ascending[below] + beyond * (ascending[above] - ascending[below]);
}

double mean_of(const std::vector<double>& values) {
    if (values.empty()) return 0;
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

double variance_of(const std::vector<double>& values) {
    if (values.size() < 2) return 0;
    const double mean = mean_of(values);
    const auto n = static_cast<double>(values.size());
    return central_moment(values, values, mean, mean) * n / (n - 1);
}

double half_width_95(const std::vector<double>& replicates) {
    if (replicates.size() < 2) return 0;
    const auto n = static_cast<double>(replicates.size());
    const boost::math::students_t_distribution<double> student(n - 1);
    return boost::math::quantile(student, 0.975) * std::sqrt(variance_of(replicates) / n);
}

std::vector<double> ranks_of(const std::vector<double>& values) {
    const std::vector<std::size_t> order = ascending_order(values);
    std::vector<double> ranks(values.size());
    for (std::size_t first = 0; first < order.size();) {
        std::size_t last = first;
        while (last < order.size() && values[order[last]] == values[order[first]])
            ++last;
        const double shared = static_cast<double>(first + last + 1) / 2;
        for (std::size_t i = first; i < last; ++i)
            ranks[order[i]] = shared;
        first = last;
    }
    return ranks;
}

double rank_correlation(const std::vector<double>& a, const std::vector<double>& b) {
    if (a.empty()) return 0;
    const std::vector<double> ranks_a = ranks_of(a);
    const std::vector<double> ranks_b = ranks_of(b);
    const double mean = (static_cast<double>(a.size()) + 1) / 2;
    const double both = std::sqrt(central_moment(ranks_a, ranks_a, mean, mean)) *
                        std::sqrt(central_moment(ranks_b, ranks_b, mean, mean));
    return both == 0 ? 0 : central_moment(ranks_a, ranks_b, mean, mean) / both;
}

double first_order_index(const std::vector<double>& input, const std::vector<double>& output) {
    constexpr std::size_t most_classes = 32;
    constexpr std::size_t least_in_each = 150;
    const std::size_t n = output.size();
    const std::size_t classes = std::min(most_classes, n / least_in_each);
    if (classes < 2) return 0;
    const double mean = mean_of(output);
    const double whole = central_moment(output, output, mean, mean) * static_cast<double>(n);
    if (whole == 0) return 0;
    std::vector<double> sums(classes, 0.0);
    std::vector<double> counts(classes, 0.0);
    for (std::size_t i = 0; i < n; ++i) {
        const auto own = std::min(classes - 1, static_cast<std::size_t>(input[i] * static_cast<double>(classes)));
        sums[own] += output[i] - mean;
        ++counts[own];
    }
    double between = 0;
    for (std::size_t c = 0; c < classes; ++c) {
        if (counts[c] > 0) between += sums[c] * sums[c] / counts[c];
    }
    const double by_chance = static_cast<double>(classes - 1) * (whole - between) / static_cast<double>(n - classes);
    return (between - by_chance) / whole;
}

}  // namespace spadework
