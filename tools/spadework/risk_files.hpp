#pragma once

#include "doubt/risk_sample.hpp"
#include "spadework/exit_code.hpp"
#include "spadework/options.hpp"

namespace spadework {

/// Prints the study of a whole sample, and writes it to the folder of --out where one was named.
ExitCode show_risk(const RiskSample& sample, const ResultOptions& result);

}  // namespace spadework
