#pragma once

// What is said of a layout's links, and of layouts that checks rule out, for every kind of report.

#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "report/text_table.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// "lx10", or with what it needs: "er, att-5 at hub, att-5 at mill".
std::string lighting_in_words(const Scenario& scenario, const PlannedLink& link);

/// How long the glass of each link may become, and whether it would carry the next rate.
TextTable next_rate_table(const Scenario& scenario, const LayoutResult& result);

/// How far the verdict of that table goes.
std::string next_rate_sentence();

/// "yes, 2.31 dB left", "no, loss 0.45 dB too much", "no faster optic known".
std::string next_rate_in_words(const NextRate& next);

/// Which strand use the plan has and what the other comes to; "" where the rules fix it.
std::string strand_use_sentence(const Scenario& scenario, const LayoutResult& result);

/// Whether any layout that cannot be built has findings that say why.
bool any_ruled_out(const Comparison& comparison);

/// The error findings of layouts that cannot be built.
TextTable ruled_out_table(const Comparison& comparison);

}  // namespace spadework::report
