#pragma once

#include <string>
#include <string_view>

#include "drawing/picture.hpp"

namespace spadework::drawing {

/// Where one entry of a legend stands.
struct LegendSpot {
    double x = 0;       ///< Left of its sign.
    double y = 0;       ///< Baseline of its text.
    double text_x = 0;  ///< Left of its text.
    std::string text;   ///< Shortened to a line's width.
};

/// Lays entries of a legend side by side, and below each other where a line is full.
class LegendFlow {
public:
    /// From `left` to `right`, the first line's top at `top`; signs are `sign_width` wide.
    LegendFlow(double left, double right, double top, double sign_width = 18);

    LegendSpot next(std::string_view text);
    /// The y below the last line.
    [[nodiscard]] double below() const;

private:
    double left_;
    double right_;
    double x_;
    double baseline_;
    double sign_width_;
};

}  // namespace spadework::drawing
