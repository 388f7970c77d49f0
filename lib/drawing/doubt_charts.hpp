#pragma once

// Pictures of doubt: see drawing.hpp for what all pictures promise.

#include <string>

#include "doubt/risk_sample.hpp"
#include "doubt/sweep.hpp"
#include "drawing/drawing.hpp"

namespace spadework::drawing {

/// For each layout the share of draws at which it costs no more than so much.
std::string risk_curves_svg(const RiskSample& sample, const Frame& frame);

/// Along one input the total of each layout, with a band down to its lower bound, and where the winner changes; of two
/// inputs the winner at each pair of values.
std::string sweep_svg(const Scenario& scenario, const Sweep& sweep, const Frame& frame);

}  // namespace spadework::drawing
