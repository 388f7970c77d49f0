#pragma once

#include <set>
#include <string>

#include "drawing/picture.hpp"

namespace spadework::drawing {

/// How an area of a picture is filled: a colour, and lines or dots that tell it from others without colour.
struct Fill {
    int colour = 0;  ///< Index into the palette, taken round.
    int hatch = 0;   ///< 0 plain, then diagonals, lines, dots, crosses; taken round.
    friend auto operator<=>(const Fill&, const Fill&) = default;
};

/// Number of colours in the palette and of hatches.
inline constexpr int palette_size = 8;
inline constexpr int hatch_count = 8;

/// The fill for the n-th kind of thing: neighbours differ in colour, in lightness and in hatch, and the first 64 differ
/// from each other.
Fill nth_fill(int n);

/// Colour of a fill as #rrggbb.
const char* colour_of(const Fill& fill);

/// Fills used in one picture, written as patterns where they are hatched.
class Fills {
public:
    explicit Fills(const Ids& ids) : ids_(ids) {}

    /// The value of a fill attribute.
    std::string use(const Fill& fill);
    /// <defs> with the patterns of all fills used so far.
    [[nodiscard]] SvgWriter definitions() const;

private:
    [[nodiscard]] static std::string name_of(const Fill& fill);

    Ids ids_;
    std::set<Fill> used_;
};

}  // namespace spadework::drawing
