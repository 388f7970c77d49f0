#pragma once

// Plan files, and what is wrong with inputs beside the site file.

#include <optional>
#include <string>

#include "diagnostics/diagnostic.hpp"
#include "plan_file/plan_file.hpp"

namespace spadework {

/// Says what is wrong with an input; true when it cannot be used.
bool refuse_input(const Diagnostics& diagnostics, const std::string& name, const std::string& text, bool quiet);

/// A plan file; nothing, and complaints, where it cannot be read or has errors.
std::optional<plan_file::PlanFile> load_plan_file(const std::string& path, bool quiet);

}  // namespace spadework
