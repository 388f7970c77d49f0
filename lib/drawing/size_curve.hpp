#pragma once

// Amounts of money over sizes on offer, and below them the chance that each size is enough.

#include <functional>
#include <string>
#include <vector>

#include "drawing/axis.hpp"
#include "drawing/picture.hpp"

namespace spadework::drawing {

/// One size on offer.
struct SizeColumn {
    std::string label;
    std::string title;         ///< What a pointer held over it shows.
    double chance_enough = 0;  ///< 0 to 1.
    std::string chance_text;   ///< "35.0".
    bool fits = false;         ///< Holds what is needed today.
    bool recommended = false;
};

/// One amount for every size: the price now, or what is expected later, or the sum of both.
struct SizeSeries {
    std::string name;
    std::vector<double> values;      ///< In minor units, one a column; one that is not finite is left out.
    std::vector<std::string> texts;  ///< The same for people.
    std::string dashes;              ///< A stroke-dasharray; empty for an unbroken line.
};

struct SizeCurve {
    std::string title;
    std::string price_text;   ///< Heading of the upper part, with its unit.
    std::string chance_text;  ///< Heading of the lower part.
    std::string size_text;    ///< Below everything.
    std::function<std::string(double value, double step)> tick;
    std::vector<SizeColumn> columns;
    std::vector<SizeSeries> series;
};

std::string size_curve_svg(const SizeCurve& curve, const Heading& heading, const Frame& frame);

}  // namespace spadework::drawing
