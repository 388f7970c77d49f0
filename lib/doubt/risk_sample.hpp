#pragma once

// What the totals of a site come to under many draws of its ranges: whole numbers only, so that parts worked out apart
// make the same whole. What it means is in risk_study.hpp.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "doubt/quantile.hpp"
#include "layout/plan.hpp"
#include "units/money.hpp"

namespace spadework {

/// A layout planned anew at a fresh draw, beside the cheapest of the plans known.
struct PoolCheck {
    std::int64_t known = 0;    ///< Total of the cheapest plan known, minor units.
    std::int64_t planned = 0;  ///< Total of the plan made for that draw.
    std::int64_t bound = 0;    ///< No plan of the layout costs less there.
    friend bool operator==(const PoolCheck&, const PoolCheck&) = default;
};

struct SampledLayout {
    LayoutKind layout = LayoutKind::home_runs;
    std::string reason;              ///< Why there is no plan at the likely values; "" where there is one.
    std::int64_t likely_total = 0;   ///< Of the plan at the likely values, there.
    std::int64_t likely_direct = 0;  ///< The same before contingency and tax.
    std::int64_t likely_bound = 0;   ///< No plan of the layout costs less there.
    std::int64_t plans_made = 0;     ///< Plans made at draws.
    std::int64_t plans_kept = 0;     ///< Different plans that are the cheapest known at some draw.
    std::vector<PoolCheck> checks;   ///< One a fresh draw that has a plan.
    [[nodiscard]] bool planned() const { return reason.empty(); }
    friend bool operator==(const SampledLayout&, const SampledLayout&) = default;
};

/// What all parts of one study have in common. Drivers are told by name and by the keys of their ranges.
struct RiskHead {
    std::string site;
    std::string digest;
    Currency currency;
    std::int64_t contingency_thousandths = 0;  ///< Of a percent, as the site has it.
    std::uint64_t random_seed = 1;
    std::int64_t draws = 0;    ///< Asked for in all.
    std::int64_t replans = 0;  ///< Draws at which every layout was planned anew.
    std::int64_t checks = 0;   ///< Fresh draws at which every layout was planned anew to check.
    bool lengths_vary = false;
    std::vector<Driver> drivers;
    std::vector<std::string> keys;  ///< Of the ranges, which drivers name by index.
    std::vector<SampledLayout> layouts;
    /// Whether they are heads of one study.
    friend bool operator==(const RiskHead& a, const RiskHead& b);
};

/// Two totals a layout at one draw, minor units; no_plan where nothing can be built.
inline constexpr std::int64_t no_plan = -1;
struct DrawnTotals {
    std::int64_t best = no_plan;   ///< Of the cheapest plan known at these prices.
    std::int64_t today = no_plan;  ///< Of the plan made at the likely values.
    friend bool operator==(const DrawnTotals&, const DrawnTotals&) = default;
};

struct RiskSample {
    RiskHead head;
    std::int64_t first = 0;           ///< Draw that `totals` begins with.
    std::vector<DrawnTotals> totals;  ///< Draw by draw, layout by layout in each.
    std::string interrupted;          ///< What was cut short, or "".
    [[nodiscard]] std::int64_t count() const {
        return head.layouts.empty() ? 0 : static_cast<std::int64_t>(totals.size() / head.layouts.size());
    }
};

}  // namespace spadework
