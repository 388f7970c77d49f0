#pragma once

#include <string>

#include "plan_file/plan_file.hpp"

namespace spadework::report {

/// A plan file's text, which plan_file::read_plan_file() reads. Keys that end in _mm are millimetres, in _pm
/// picometres, in _mdb thousandths of a decibel; money is in minor units of the currency.
std::string plan_file_json(const plan_file::PlanFile& file);

}  // namespace spadework::report
