#pragma once

// An acceptance for people, and as a table.

#include <string>

#include "acceptance/acceptance.hpp"
#include "plan_file/plan_file.hpp"

namespace spadework::report {

/// The verdict, readings by verdict, what does not pass, and what to do next.
std::string acceptance_text(const plan_file::PlanFile& plan, const acceptance::Acceptance& acceptance);

/// The same as one page to hand over, with every reading and the cables as built.
std::string acceptance_html(const plan_file::PlanFile& plan, const acceptance::Acceptance& acceptance);

/// The test sheet with every reading, its margin, verdict and why; it can be handed in as readings again.
std::string as_built_csv(const plan_file::PlanFile& plan, const acceptance::Acceptance& acceptance);

}  // namespace spadework::report
