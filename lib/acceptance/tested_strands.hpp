#pragma once

// Rows of a test sheet gathered by strand, and strands that were taken for each other.

#include <optional>
#include <string>
#include <vector>

#include "acceptance/acceptance.hpp"

namespace spadework::acceptance {

/// The readings of one strand of one link.
struct TestedStrand {
    const plan_file::NamedTest* test = nullptr;
    std::vector<std::size_t> rows;  ///< Positions among the judged readings.
    std::optional<Length> length;   ///< Mean of what was measured.
};

/// One entry a test of the plan, in its order. The rows of a test follow each other from position 0 on.
std::vector<TestedStrand> tested_strands(const plan_file::PlanFile& plan, const std::vector<JudgedReading>& rows);

/// Two strands that fit each other's expectations and not their own.
struct Swap {
    std::size_t a = 0;  ///< Positions among the tested strands.
    std::size_t b = 0;
    bool by_length = false;  ///< Else by loss.
};

/// Every strand is in one swap at most; the pairs that fit best come first.
std::vector<Swap> swaps_among(const std::vector<TestedStrand>& strands, const std::vector<JudgedReading>& rows,
                              const AcceptanceLimits& limits);

}  // namespace spadework::acceptance
