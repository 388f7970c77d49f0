#pragma once

// What the commands that plan have in common around the study itself.

#include <string>
#include <vector>

#include "spadework/exit_code.hpp"
#include "spadework/options.hpp"
#include "study/study.hpp"

namespace spadework {

StudyOptions study_options(const SearchOptions& options, StudyObserver& observer);

/// Prints what the verifier found as a bug of Spadework, on standard error, and nothing of the result.
ExitCode report_bug(const std::vector<std::string>& violations);

/// What the shell is told of a result that was shown; says so on standard error when Ctrl-C cut the search short.
ExitCode outcome(bool feasible);

}  // namespace spadework
