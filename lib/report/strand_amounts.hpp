#pragma once

#include <string>

#include "scenario/scenario.hpp"
#include "strands/trunk_run.hpp"
#include "units/money.hpp"

namespace spadework::report {

/// Expected amounts are real numbers of minor units; these are the nearest whole figures, no larger than a Money can
/// hold.
Money whole_money(double minor);

/// A study's amount as shown: money of a whole trunk, or of a metre (a foot where the site is in feet) of one.
std::string trunk_amount(double minor, const Scenario& scenario, const TrunkRun& run);

/// The same as a price a metre or a trunk in thousandths, for files.
UnitPrice trunk_price(double minor);

}  // namespace spadework::report
