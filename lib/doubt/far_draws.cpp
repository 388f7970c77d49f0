#include "doubt/far_draws.hpp"

#include <algorithm>
#include <limits>

namespace spadework {

namespace {

double distance(const double* a, const double* b, const std::vector<double>& weights) {
    double sum = 0;
    for (std::size_t d = 0; d < weights.size(); ++d) {
        const double apart = weights[d] * (a[d] - b[d]);
        sum += apart * apart;
    }
    return sum;
}

}  // namespace

std::vector<std::size_t> far_draws(const std::vector<double>& points, const std::vector<std::size_t>& candidates,
                                   const std::vector<double>& weights, const std::vector<std::vector<double>>& known,
                                   std::size_t count) {
    const auto point = [&](std::size_t draw) { return points.data() + draw * weights.size(); };
    std::vector<double> nearest(candidates.size(), std::numeric_limits<double>::infinity());
    const auto come_near = [&](const double* to) {
        for (std::size_t c = 0; c < candidates.size(); ++c)
            nearest[c] = std::min(nearest[c], distance(point(candidates[c]), to, weights));
    };
    for (const std::vector<double>& before : known)
        come_near(before.data());
    std::vector<std::size_t> chosen;
    while (chosen.size() < count && !candidates.empty()) {
        const auto farthest = std::max_element(nearest.begin(), nearest.end());
        if (*farthest <= 0) break;
        chosen.push_back(candidates[static_cast<std::size_t>(farthest - nearest.begin())]);
        come_near(point(chosen.back()));
    }
    return chosen;
}

}  // namespace spadework
