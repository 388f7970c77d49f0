#pragma once

// Sites and plans for pictures: streets in a grid with buildings beside them, and the small site that can be checked by
// hand. No solver: pictures do not ask whether a plan is good.

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"
#include "study/study.hpp"

namespace spadework::testing {

struct InventedPlan {
    Scenario scenario;
    LayoutResult result;
};

/// A result with its figures: metres and cables counted, total and bound made up.
LayoutResult with_figures(const Scenario& scenario, const Plan& plan);

/// So many buildings along a grid of streets, 60 m apart, with grounds in turn, some existing ducts and pole lines; a
/// trunk to an enclosure and drops from there, or home runs. Names differ in length with `dice`.
InventedPlan grid_plan(int buildings, LayoutKind layout, unsigned dice = 1);

/// The small site: barn and mill, with a plan of that layout.
InventedPlan small_plan(LayoutKind layout);

/// A comparison of the small site's layouts, the trunk cheapest.
Comparison small_comparison(const Scenario& scenario);

/// Three places for the small site's enclosure, and one barred.
EnclosureStudy small_enclosure_study(const Scenario& scenario);

}  // namespace spadework::testing
