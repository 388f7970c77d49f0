#pragma once

// Plans of one layout to choose from at any prices.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "doubt/priced_plan.hpp"
#include "doubt/risk_sample.hpp"
#include "layout/plan.hpp"
#include "layout/routed_layout.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

class PlanPool {
public:
    /// Where lengths vary, cables are cut anew along each plan's routes; otherwise its quantities stay.
    explicit PlanPool(bool lengths_vary) : lengths_vary_(lengths_vary) {}

    /// Adds a plan unless one with the same quantities, or routes where lengths vary, is there. `scenario` is the one
    /// it was made for.
    void add(const Scenario& scenario, const Plan& plan);

    [[nodiscard]] std::size_t size() const { return plans_.size(); }

    /// What one plan costs at the prices of a scenario, minor units; no_plan where it cannot be built there.
    [[nodiscard]] std::int64_t total(std::size_t plan, const Scenario& scenario) const;

    struct Cheapest {
        std::size_t plan = 0;
        std::int64_t total = no_plan;
    };
    /// The cheapest plan; ties go to the first. A total of no_plan in an empty pool, or where none can be built. What
    /// the first plan costs there may be given where it is known.
    [[nodiscard]] Cheapest cheapest(const Scenario& scenario, std::optional<std::int64_t> of_first = {}) const;

    /// Keeps these plans alone, in their order.
    void keep(const std::vector<bool>& wanted);

private:
    struct Known {
        PricedPlan quantities;
        RoutedLayout routes;  ///< Empty where only prices vary.
        StrandUse strand_use = StrandUse::duplex;
    };
    bool lengths_vary_;
    std::vector<Known> plans_;
};

}  // namespace spadework
