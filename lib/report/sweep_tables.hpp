#pragma once

// The tables and sentences that the text and the page of a sweep share.

#include <string>
#include <vector>

#include "doubt/sweep.hpp"
#include "report/text_table.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// "labour.groundworks-rate from 40 to 90 EUR an hour, 40 points."
std::string sweep_opening(const Sweep& sweep);
/// How totals and bounds come about.
std::string sweep_note(const Sweep& sweep);
/// Along one input: a sentence for each change of the winner, or that there is none.
std::vector<std::string> change_sentences(const Sweep& sweep);

/// Along one input: a row a point.
TextTable points_table(const Scenario& scenario, const Sweep& sweep);
/// Of two inputs: a row for each value of the second, a letter for the winner at each value of the first.
TextTable winners_table(const Sweep& sweep);
/// What the letters mean.
std::vector<std::string> winner_letters(const Sweep& sweep);

/// A value of an input without needless digits.
std::string input_text(double value);
/// Of a layout in the sweep, or "no layout".
std::string winner_name(const Sweep& sweep, std::optional<int> winner);

}  // namespace spadework::report
