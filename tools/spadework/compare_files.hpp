#pragma once

// What 'spadework compare --out' leaves in its folder.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "growth/two_stage.hpp"
#include "scenario/scenario.hpp"
#include "spadework/output_folder.hpp"
#include "strands/strand_study.hpp"
#include "study/explanation.hpp"
#include "study/study.hpp"

namespace spadework {

/// A comparison and what was worked out beside it.
struct Compared {
    Scenario scenario;  ///< The site, with straight lines over its open ground.
    Study study;
    bool explain = false;                      ///< Whether an explanation was asked for.
    std::optional<Explanation> explanation;    ///< Empty also where there is no plan to explain.
    std::optional<EnclosureStudy> enclosures;  ///< Where the places for the enclosure were ranked.
    std::optional<GrowthStudy> growth;         ///< Where a plan for growth was asked for.
    std::uint64_t seed = 1;                    ///< The searches' random seed.
};

/// The comparison as printed: for people, and for programs.
std::string text_of(const Scenario& scenario, const Compared& compared);
std::string json_of(const Scenario& scenario, const Compared& compared);

/// Writes report, tables and plans, and removes those that an earlier run may have left and this one does not write.
/// Throws CannotWrite.
void write_files(const OutputFolder& folder, const Scenario& scenario, const Compared& compared);

/// Why a file that other sites get is not written for this one; "" where all are.
std::string missing_files_note(const Scenario& scenario, const Compared& compared);

}  // namespace spadework
