#pragma once

// A value that nobody knows yet: what it may be, and how likely each of these is.

#include <optional>
#include <string>

namespace spadework {

enum class RangeShape {
    uniform,     ///< Between two ends, each value as likely as any other.
    triangular,  ///< Between two ends, density rising in a straight line to the likely value and falling from there.
    pert,        ///< Between two ends, beta distributed: see quantile() in doubt/quantile.hpp.
    two_point,   ///< One value with a chance, another otherwise.
};

/// In whatever unit its key has. Ends are ends: nothing lies outside.
struct Range {
    RangeShape shape = RangeShape::uniform;
    double low = 0;     ///< Of a two-point range the lower of its values.
    double likely = 0;  ///< The value that plans are made with: the mode, the middle where all are as likely, and the
                        ///< likelier of two (the one without the chance where both are as likely).
    double high = 0;
    double chance_of_high = 0;  ///< Of a two-point range.
};

/// Low, likely and high as stated, where `tails` (a share, from 0 to below 0.5) of all cases lie below the low figure
/// and as many above the high one. Nothing where no triangle has these figures: the likely one must lie strictly
/// between the others when there are tails.
std::optional<Range> triangular_range(double low, double likely, double high, double tails);
Range uniform_range(double low, double high, double tails);
Range pert_range(double low, double likely, double high);
Range two_point_range(double otherwise, double then, double chance);

/// A value of the site file that is a range.
struct UncertainValue {
    std::string key;    ///< "labour.groundworks-rate", "map.segments[avenue].length".
    std::string unit;   ///< "EUR an hour"; as the site file states it, so that `range` is in these units.
    std::string group;  ///< All values of a group move together; empty: it moves alone.
    Range range;
};

}  // namespace spadework
