#pragma once

// A sweep for people and programs.

#include <string>

#include "doubt/sweep.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

std::string sweep_text(const Scenario& scenario, const Sweep& sweep);

/// Amounts in the currency's major unit.
std::string sweep_json(const Scenario& scenario, const Sweep& sweep);

/// A row a point: the inputs, total and bound of each layout, the winner, whether it is proven.
std::string sweep_csv(const Scenario& scenario, const Sweep& sweep);

/// One page to open and print.
std::string sweep_html(const Scenario& scenario, const Sweep& sweep);

}  // namespace spadework::report
