#pragma once

#include "json/fields.hpp"
#include "plan_file/plan_file.hpp"

namespace spadework::plan_file {

/// What is wrong with the strands, which were read from this list: one given twice or missing, one without a cable or
/// link, an adapter or a port that serves two.
void find_strand_contradictions(const json::JsonValue& list, const PlanFile& file, json::Problems& problems);

}  // namespace spadework::plan_file
