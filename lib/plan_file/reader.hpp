#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "diagnostics/diagnostic.hpp"
#include "plan_file/plan_file.hpp"

namespace spadework::plan_file {

/// Largest file taken, in bytes.
inline constexpr std::size_t largest_file_bytes = std::size_t{64} * 1024 * 1024;

/// What became of a plan file's text.
struct ReadPlanFile {
    std::optional<PlanFile> plan;  ///< Nothing when the diagnostics hold an error.
    Diagnostics diagnostics;
};

/// Reads a plan file. Every problem is told in one pass with its line and column and what would be right: text that is
/// not of the format, another version, and what contradicts itself: a strand, adapter or port given twice, a cable,
/// segment or link that the file does not have, lengths and amounts that do not add up. Any bytes are taken without
/// harm.
ReadPlanFile read_plan_file(const std::string& file, std::string_view text);

}  // namespace spadework::plan_file
