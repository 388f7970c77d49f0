#pragma once

// Plans of one layout made at some values of an input, laid out again at others.

#include <cstddef>
#include <cstdint>
#include <vector>

#include "doubt/risk_sample.hpp"
#include "layout/plan.hpp"
#include "layout/routed_layout.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Whether two layouts have the same routes, for the same buildings in the same order.
bool same_routes(const RoutedLayout& a, const RoutedLayout& b);

/// The routes of plans: at another value of an input they stay, while cables, gear and links are chosen anew. All sites
/// have the same places, segments and buildings.
class ReusedPlans {
public:
    /// Adds a plan's routes unless they are there.
    void add(const Plan& plan);

    [[nodiscard]] std::size_t size() const { return known_.size(); }

    /// What the cheapest of the plans from number `first` on costs there, minor units, if it is less than `limit`
    /// (no_plan is no limit). Only plans count that pass every check and the verifier. no_plan where there is none.
    [[nodiscard]] std::int64_t cheapest(const Scenario& scenario, std::size_t first, std::int64_t limit) const;

private:
    struct Known {
        RoutedLayout routes;
        StrandUse strand_use = StrandUse::duplex;
    };
    std::vector<Known> known_;
};

}  // namespace spadework
