#pragma once

// A small strict reader of pictures, for tests: shares nothing with the code that writes them.

#include <map>
#include <string>
#include <vector>

namespace spadework::testing {

struct SvgElement {
    std::string name;
    std::map<std::string, std::string> attributes;
    std::string text;  ///< Directly inside, entities resolved.
    std::vector<SvgElement> children;

    /// A number attribute; 0 where it is missing.
    [[nodiscard]] double number(const std::string& attribute) const;
    [[nodiscard]] std::string attribute(const std::string& its_name) const;
    /// The element with that id, itself included; nullptr where there is none.
    [[nodiscard]] const SvgElement* find(const std::string& id) const;
    /// This and all elements inside with that name, in document order; all elements for "".
    [[nodiscard]] std::vector<const SvgElement*> all(const std::string& its_name = "") const;
    /// Text of the first <title> directly inside; "" where there is none.
    [[nodiscard]] std::string title() const;
};

/// Reads a picture. Throws std::runtime_error where it is not well-formed: tags that do not match, attributes twice or
/// without quotes, bare < or &, unknown entities, control characters.
SvgElement read_svg(const std::string& text);

struct SvgBox {
    double left = 0;
    double top = 0;
    double right = 0;
    double bottom = 0;
};

/// They share more than a hundredth of a unit in both directions.
bool boxes_overlap(const SvgBox& a, const SvgBox& b);
bool box_holds(const SvgBox& outer, const SvgBox& inner);

/// Of a rect, a circle, a line or a path of straight lines; without stroke.
SvgBox shape_box(const SvgElement& shape);

/// Of a text element, with the widths of Liberation Sans, which those of Arial and Helvetica equal. Characters that are
/// not in ASCII count as the widest letter.
SvgBox text_box(const SvgElement& text);

/// Contrast of a colour #rrggbb against white by WCAG 2.1: 1 to 21.
double contrast_to_white(const std::string& colour);

}  // namespace spadework::testing
