#pragma once

// Plans along inputs that move more than prices: made anew where it matters, laid out again elsewhere.

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "doubt/planned_layout.hpp"
#include "doubt/reused_plans.hpp"
#include "doubt/sweep.hpp"

namespace spadework {

/// Every layout is planned at a few spots spread over the grid. At the others the routes of all these plans are laid
/// out again; halfway between two planned spots the layouts that may win are planned anew, and on towards both sides
/// where that made them cheaper. At last rivals are planned as far as it takes to pass the winner, where all can be
/// expected to. Where the buildings themselves change, every layout is planned at every spot.
class Replanning {
public:
    using Spot = std::pair<double, double>;  ///< Values of the first and of the second input.
    using SiteAt = std::function<std::optional<Scenario>(const Spot&)>;

    /// `sweep` has its inputs and layouts; violations, interruptions and counts are added to it.
    Replanning(Sweep& sweep, const SweepOptions& options, SiteAt site_at);

    /// Plans over the whole grid: its rows one after the other, each with the first input ascending.
    void plan(const std::vector<Spot>& grid);

    /// What is known there: totals of the cheapest plans, bounds, and whether every layout was planned.
    [[nodiscard]] SweptPoint point_at(const Spot& spot);

    /// Plans those layouts there that may win.
    void plan_what_may_win(const Spot& spot);

    /// Plans known by now, of all layouts together.
    [[nodiscard]] std::size_t plans() const;

private:
    struct Laid {
        std::size_t plans = 0;  ///< Of the layout, laid out there.
        std::int64_t total = no_plan;
    };
    struct Found {
        bool looked = false;  ///< The layout was planned there, whatever came of it.
        SweptTotal planned;
        Laid laid;
    };
    using Gaps = std::vector<std::optional<double>>;

    [[nodiscard]] std::vector<Found>& found_at(const Spot& spot);
    [[nodiscard]] bool lay_out(const std::vector<Spot>& spots);
    [[nodiscard]] std::vector<std::int64_t> totals_at(const Spot& spot);
    [[nodiscard]] const std::vector<Found>* nearest_planned(const Spot& spot) const;
    [[nodiscard]] std::vector<std::int64_t> nearest_totals(const Spot& spot) const;
    [[nodiscard]] bool passes_nearby(const Spot& spot, std::size_t rival, std::size_t winner) const;
    void plan_at(const std::vector<Spot>& spots, const std::function<Gaps(const Spot&)>& gaps_at);
    void take(const Spot& spot, std::vector<PlannedLayout> planned, const Gaps& gaps);
    void plan_wholly(const std::vector<Spot>& spots);
    [[nodiscard]] Gaps gaps_of_all(const Spot& spot);
    [[nodiscard]] Gaps gaps_of_contenders(const Spot& spot);
    [[nodiscard]] Gaps gaps_of_the_rest(const Spot& spot);
    [[nodiscard]] Gaps gaps_to_prove(const Spot& spot);
    void plan_halfway(const std::vector<Spot>& row);
    [[nodiscard]] std::int64_t bound_from_smaller(const Spot& spot, std::size_t layout) const;
    [[nodiscard]] bool should_stop() const {
        return options_.study.observer != nullptr && options_.study.observer->should_stop();
    }

    Sweep& sweep_;
    const SweepOptions& options_;
    SiteAt site_at_;
    bool reuses_ = true;              ///< Sites differ in figures alone, so that routes of one may be taken at another.
    bool narrows_ = false;            ///< Any plan at a larger value is one at a smaller value.
    std::vector<ReusedPlans> known_;  ///< One a layout.
    std::map<Spot, std::vector<Found>> found_;
};

}  // namespace spadework
