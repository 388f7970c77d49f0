#pragma once

// Readings held against a plan's limits: what passes, what does not and why, and the plan as it was built.

#include <array>
#include <string>
#include <vector>

#include "acceptance/readings.hpp"
#include "plan_file/as_built.hpp"
#include "plan_file/plan_file.hpp"

namespace spadework::acceptance {

using plan_file::AcceptanceLimits;
using plan_file::Verdict;

/// One row of the test sheet with what was read and what is to be said of it.
struct JudgedReading {
    plan_file::NamedReading reading;
    std::string way;              ///< Labels of its strands in order from the hub; empty where it is not in the plan.
    plan_file::NamedLimit limit;  ///< All 0 where it is not in the plan.
    Length expected;              ///< Fibre as planned.
};

struct Acceptance {
    AcceptanceLimits limits;
    std::vector<JudgedReading> readings;  ///< In the order of the test sheet, then those not in the plan.
    std::array<int, plan_file::verdict_count> counts{};  ///< Readings of each verdict.
    std::vector<plan_file::AsBuiltCable> cables;
    int lengths = 0;       ///< Readings with a length: without any, wrong cables cannot be told by their length.
    int from_earlier = 0;  ///< Readings taken over from an earlier acceptance of the plan.

    [[nodiscard]] int count(Verdict verdict) const { return counts[static_cast<std::size_t>(verdict)]; }
    /// Every row of the sheet was read and passes, and nothing else was.
    [[nodiscard]] bool accepted() const { return count(Verdict::pass) == static_cast<int>(readings.size()); }
};

/// Judges readings. Where the plan file is an as-built record, its readings count for what is not measured again.
/// - fail: the loss is above the limit; too good: below what is least possible.
/// - wrong length: the measured length is off by more than the larger of the two tolerances.
/// - swapped: each of two strands does not fit its own length and fits the other's; or, where lengths do not say, each
///   breaks its own loss limits and keeps the other's throughout. Strands of like length and loss cannot be told apart.
/// - directions differ: the two directions at one wavelength are farther apart than allowed.
Acceptance judge(const plan_file::PlanFile& plan, const std::vector<Reading>& readings, const AcceptanceLimits& limits);

/// The plan with the readings, their verdicts and measured cable lengths: itself a plan file.
plan_file::PlanFile as_built(plan_file::PlanFile plan, const Acceptance& acceptance);

/// "mill link 1 strand 2", with the building's id as it is: to be made fit to show by whoever shows it.
std::string strand_in_words(const plan_file::ReadingKey& key);

/// A length within tolerance of what was expected.
bool length_fits(Length measured, Length expected, const AcceptanceLimits& limits);

}  // namespace spadework::acceptance
