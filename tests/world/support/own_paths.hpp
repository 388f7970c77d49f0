#pragma once

// Every simple path for one more cable beside what was built, and what laid paths open.

#include <map>
#include <utility>
#include <vector>

#include "layout/plan.hpp"
#include "world/support/own_prices.hpp"

namespace spadework::own {

using Passed = std::pair<int, int>;  ///< Segment and way.

struct Path {
    std::vector<Passed> steps;
    Run run;
};

/// Ways beside a built plan: less room where cables lie, nothing to open where ducts and poles are in use.
class OwnPaths {
public:
    OwnPaths(const Scenario& site, const Plan& built);

    [[nodiscard]] std::vector<Path> between(PlaceIndex from, PlaceIndex to) const;

    /// Lays a cable; what it opens is paid now. False where a duct is over its room.
    bool lay(const Path& path);
    void take_out(const Path& path);

    [[nodiscard]] Cents paid() const { return paid_; }

private:
    const Scenario& site_;
    std::map<Passed, std::pair<OwnWay, int>> ways_;
    Cents paid_ = 0;
};

}  // namespace spadework::own
