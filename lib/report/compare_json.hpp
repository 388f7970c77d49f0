#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "comparison/comparison.hpp"
#include "growth/two_stage.hpp"
#include "scenario/scenario.hpp"
#include "study/explanation.hpp"

namespace spadework::report {

/// The whole comparison as one JSON object (RFC 8259). Lengths are in metres whatever the site's unit, as `length_unit`
/// says; money is in the currency's major unit with exactly its digits, so that cost_by_category sums to total_cost.
/// `cheapest` is the id of a layout, or null.
std::string compare_json(const Scenario& scenario, const Comparison& comparison, std::uint64_t seed);

/// The same with `explanation` as its last member: an object, or null where there is no plan to explain.
std::string compare_json(const Scenario& scenario, const Comparison& comparison, std::uint64_t seed,
                         const std::optional<Explanation>& explanation);

/// What was worked out beside a comparison; null where it was not asked for.
struct BesideComparison {
    const std::optional<Explanation>* explanation = nullptr;
    const GrowthStudy* growth = nullptr;
};
std::string compare_json(const Scenario& scenario, const Comparison& comparison, std::uint64_t seed,
                         const BesideComparison& beside);

}  // namespace spadework::report
