#pragma once

// Plan files and other inputs beside the site file.

#include <optional>
#include <string>

#include "diagnostics/diagnostic.hpp"
#include "plan_file/plan_file.hpp"

namespace spadework {

/// What a file is reported as: its path, or "<standard input>" for "-".
std::string name_of_input(const std::string& path);

/// The text of a file; nothing, and a complaint, where it cannot be read.
std::optional<std::string> text_of_input(const std::string& path);

/// Says what is wrong with an input; true when it cannot be used.
bool refuse_input(const Diagnostics& diagnostics, const std::string& name, const std::string& text, bool quiet);

/// A plan file; nothing, and complaints, where it cannot be read or has errors.
std::optional<plan_file::PlanFile> load_plan_file(const std::string& path, bool quiet);

}  // namespace spadework
