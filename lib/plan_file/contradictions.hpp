#pragma once

#include "json/fields.hpp"
#include "plan_file/plan_file.hpp"

namespace spadework::plan_file {

/// Notes where a plan file that was read from this object contradicts itself. Names that could not be read are empty,
/// and nothing is said of them again.
void find_contradictions(const json::JsonValue& value, const PlanFile& file, json::Problems& problems);

}  // namespace spadework::plan_file
