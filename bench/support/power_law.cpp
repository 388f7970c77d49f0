#include "support/power_law.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/Dense>

namespace spadework::bench {

std::optional<PowerLaw> fitted_power_law(const std::vector<SizeAndTime>& points) {
    const auto other_size = [&](const SizeAndTime& point) { return point.size != points.front().size; };
    if (std::none_of(points.begin(), points.end(), other_size)) return std::nullopt;
    const auto count = static_cast<Eigen::Index>(points.size());
    Eigen::MatrixXd sizes(count, 2);
    Eigen::VectorXd times(count);
    for (Eigen::Index i = 0; i < count; ++i) {
        const SizeAndTime& point = points[static_cast<std::size_t>(i)];
        sizes.row(i) << 1.0, std::log(point.size);
        times(i) = std::log(point.seconds);
    }
    const Eigen::VectorXd line = sizes.colPivHouseholderQr().solve(times);
    const double squares = (sizes * line - times).squaredNorm();
    return PowerLaw{std::exp(line(0)), line(1), std::sqrt(squares / static_cast<double>(count))};
}

}  // namespace spadework::bench
