#pragma once

// A second, plain calculation of what a plan costs: no lines, only sums by category.

#include <array>
#include <cstdint>
#include <map>
#include <string>

#include "comparison/verification_parts.hpp"

namespace spadework::verification {

/// A sum in minor units and how far the rounding of single lines may move it.
struct Sum {
    std::int64_t minor = 0;
    double slack = 0;

    void add(std::int64_t exact) { minor += exact; }
    /// An amount whose quantity is itself rounded.
    void add_within(std::int64_t nearest, double most_off) {
        minor += nearest;
        slack += most_off;
    }
};

struct Recount {
    std::array<Sum, category_count> categories;
    std::map<std::string, std::int64_t> opening_by_segment;  ///< Groundworks, set-up and charges, minor units, exact.
    double labour_seconds = 0;
    double labour_slack = 0;  ///< Seconds that the rounding of single times may move it.

    Sum& operator[](Category category) { return categories[static_cast<std::size_t>(category)]; }
};

/// price * quantity / divisor, rounded half up.
std::int64_t product(std::int64_t price, std::int64_t quantity, std::int64_t divisor);

/// Everything but contingency and tax.
Recount recount(const Scenario& scenario, const Plan& plan);

}  // namespace spadework::verification
