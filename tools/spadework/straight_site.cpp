#include "spadework/straight_site.hpp"

#include <algorithm>
#include <chrono>
#include <utility>

#include "study/straightening.hpp"

namespace spadework {

Scenario straight_site(const Scenario& scenario, StudyOptions& options) {
    using Clock = std::chrono::steady_clock;
    const auto begun = Clock::now();
    Straightened straightened = straighten(scenario, options);
    options.known = std::move(straightened.known);
    const double taken = std::chrono::duration<double>(Clock::now() - begun).count();
    options.seconds = std::max(options.seconds - taken, options.seconds / 10);
    return std::move(straightened.scenario);
}

}  // namespace spadework
