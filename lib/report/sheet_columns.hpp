#pragma once

#include <string>

#include "comparison/comparison.hpp"
#include "report/figures.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// "length_m" or "length_ft".
inline std::string with_unit(const char* name, const Scenario& scenario) {
    return std::string(name) + "_" + length_unit(scenario);
}

/// Calls `write` with each layout that can be built, and its plan.
template <typename Write>
void for_each_plan(const Comparison& comparison, Write write) {
    for (const LayoutResult& layout : comparison.layouts) {
        if (layout.feasible()) write(layout, *layout.plan);
    }
}

}  // namespace spadework::report
