#pragma once

// Text of any origin made fit for a picture, and the room it takes there.

#include <string>
#include <string_view>
#include <vector>

namespace spadework::drawing {

/// How large a text is set.
struct Lettering {
    double size = 13;  ///< Font size in SVG user units.
    bool bold = false;
};

/// Name of the fonts that pictures ask for, in this order.
inline constexpr const char* font_family = "Arial, Helvetica, sans-serif";

/// The text as characters that XML allows and that neither hide nor reorder their neighbours: control characters and
/// bytes that are no UTF-8 written out as \x1B, direction controls and invisible characters as \u202E. Longer than
/// `most` characters, it ends in an ellipsis.
std::string drawn(std::string_view text, int most = 120);

/// A drawn text for use inside a sentence: with characters of right-to-left scripts in it, it is isolated
/// (U+2068 … U+2069, Unicode Standard Annex 9), so that figures behind it stay where they are.
std::string drawn_in_sentence(std::string_view text, int most = 120);

/// Width of a drawn text in SVG user units: the wider of two common sans faces for each character, so that a box of
/// this width holds it in either.
double width_of(std::string_view drawn_text, const Lettering& lettering);

/// The longest start of the text that is no wider than `width`, with an ellipsis where something was cut.
std::string shortened(std::string_view drawn_text, double width, const Lettering& lettering);

/// Lines no wider than `width`, broken at spaces where there are any. At least one line; at most `most_lines`, the last
/// of them ending in an ellipsis where there would be more.
std::vector<std::string> wrapped(std::string_view drawn_text, double width, const Lettering& lettering,
                                 std::size_t most_lines = 100);

}  // namespace spadework::drawing
