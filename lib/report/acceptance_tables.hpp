#pragma once

#include <string>
#include <vector>

#include "acceptance/acceptance.hpp"
#include "plan_file/plan_file.hpp"
#include "report/text_table.hpp"

namespace spadework::report {

/// "pass", "fail", "swapped strands", …: a verdict for people.
const char* name_of(plan_file::Verdict verdict);

/// "Not accepted: 2 of 16 readings are over their limit, 1 is missing."
std::string acceptance_sentence(const acceptance::Acceptance& acceptance);

/// How readings are judged: the tolerances in force, and what could not be looked for.
std::vector<std::string> acceptance_remarks(const plan_file::PlanFile& plan, const acceptance::Acceptance& acceptance);

/// One row a verdict that occurs, with its readings and strands.
TextTable verdict_table(const acceptance::Acceptance& acceptance);

/// One row a reading that does not pass, those that are missing left out.
TextTable refused_table(const plan_file::PlanFile& plan, const acceptance::Acceptance& acceptance);

/// One row for every reading.
TextTable readings_table(const plan_file::PlanFile& plan, const acceptance::Acceptance& acceptance);

/// One row a cable: its length as ordered, and as measured where a link has it to itself.
TextTable as_built_cable_table(const plan_file::PlanFile& plan, const acceptance::Acceptance& acceptance);

/// What to do about each strand that does not pass, what is missing, or with the record where all pass.
std::vector<std::string> next_steps(const plan_file::PlanFile& plan, const acceptance::Acceptance& acceptance);

}  // namespace spadework::report
