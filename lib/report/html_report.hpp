#pragma once

// A comparison as one page to open, print and hand on.

#include <cstdint>
#include <optional>
#include <string>

#include "comparison/comparison.hpp"
#include "growth/two_stage.hpp"
#include "scenario/scenario.hpp"
#include "strands/strand_study.hpp"
#include "study/explanation.hpp"
#include "study/study.hpp"

namespace spadework::report {

/// What a page is made of beside the site. All must be of that site.
struct PageParts {
    const Comparison& comparison;
    const StrandStudy& strands;
    const EnclosureStudy* enclosures = nullptr;               ///< Where the places for the enclosure were ranked.
    const std::optional<Explanation>* explanation = nullptr;  ///< Where one was asked for.
    const GrowthStudy* growth = nullptr;                      ///< Where a plan for growth was asked for.
    std::uint64_t seed = 1;                                   ///< The searches' random seed.
    std::string version;                                      ///< Of the program that made the page.
};

/// The page in HTML (HTML Living Standard): self-contained, no script, nothing loaded from anywhere, readable from 390
/// CSS pixels up and on paper. What to build, what it costs, why and how sure come first, then pictures, then tables.
/// Names from the site are shown, whatever is in them, and never obeyed. The same input gives the same bytes.
std::string report_html(const Scenario& scenario, const PageParts& parts);

}  // namespace spadework::report
