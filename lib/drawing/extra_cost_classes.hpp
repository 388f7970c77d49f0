#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "drawing/map_frame.hpp"
#include "drawing/picture.hpp"
#include "scenario/scenario.hpp"

namespace spadework::drawing {

/// Extra cost of a place in up to five classes with round limits, each about twice the one below.
class ExtraCostClasses {
public:
    ExtraCostClasses() = default;
    /// For extra costs from 0 to `most`.
    ExtraCostClasses(Money most, const Currency& currency);

    [[nodiscard]] int count() const { return static_cast<int>(limits_minor_.size()); }
    /// From 0, the least extra cost.
    [[nodiscard]] int class_of(Money extra) const;
    /// "up to EUR 1,000 more", "EUR 1,000 to 2,000 more".
    [[nodiscard]] std::string in_words(int number) const;

private:
    std::vector<double> limits_minor_;  ///< Upper limits, ascending, in minor units.
    Currency currency_;
};

/// Radius of the sign of a class.
double extra_cost_radius(int number);

/// A circle: larger and lighter the dearer, with one ring more inside for every class.
void write_extra_cost_sign(SvgWriter& svg, const Point& at, int number, std::string_view title);

}  // namespace spadework::drawing
