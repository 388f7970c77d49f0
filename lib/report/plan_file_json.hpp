#pragma once

#include <string>

#include "plan_file/plan_file.hpp"
#include "report/json_writer.hpp"

namespace spadework::report {

/// A plan file's text, which plan_file::read_plan_file() reads. Keys that end in _mm are millimetres, in _pm
/// picometres, in _mdb thousandths of a decibel; money is in minor units of the currency.
std::string plan_file_json(const plan_file::PlanFile& file);

/// Members of the current object: what strands a cable or an enclosure is needed for.
void write_need(JsonWriter& json, const StrandNeed& need);

}  // namespace spadework::report
