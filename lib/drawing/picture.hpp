#pragma once

// What all pictures have in common: the outermost element, ids, text and fills.

#include <string>
#include <string_view>
#include <vector>

#include "drawing/drawing.hpp"
#include "drawing/drawn_text.hpp"
#include "drawing/svg_writer.hpp"

namespace spadework::drawing {

/// Colours that more than one picture uses. Text is ink or quiet ink on paper: contrast 17 : 1 and 7 : 1 (WCAG 2.1).
namespace colour {
inline constexpr const char* ink = "#1a1a1a";
inline constexpr const char* quiet = "#555555";
inline constexpr const char* paper = "#ffffff";
inline constexpr const char* rule = "#9a9a9a";   ///< Axes and frames.
inline constexpr const char* faint = "#dddddd";  ///< Grid lines.
inline constexpr const char* accent = "#b3400f";
}  // namespace colour

/// Sizes of text; none is smaller than `small`.
inline constexpr double small_size = 12;
inline constexpr double text_size = 13;
inline constexpr double title_size = 16;

/// The narrowest picture: frames that ask for less get this.
inline constexpr double narrowest = 320;

/// The frame's width, within what pictures can be drawn for.
double usable_width(const Frame& frame);

/// Ids of one picture: the frame's prefix, the kind of picture and a name.
class Ids {
public:
    Ids(const Frame& frame, std::string_view kind) : start_(frame.id_prefix + std::string(kind) + "-") {}

    [[nodiscard]] std::string id(std::string_view name) const { return start_ + std::string(name); }
    [[nodiscard]] std::string url(std::string_view name) const { return "url(#" + id(name) + ")"; }

private:
    std::string start_;
};

/// What a picture is called, and what it says to those who cannot see it.
struct Heading {
    std::string kind;  ///< "plan", "cost-bars": part of every id.
    std::string title;
    std::string description;
};

/// The whole picture around its body.
std::string picture(const Frame& frame, const Heading& heading, double height, const SvgWriter& body);

enum class Anchor { start, middle, end };

struct TextStyle {
    Lettering lettering;
    const char* colour = colour::ink;
    Anchor anchor = Anchor::start;
};

/// A text with its baseline at y.
void write_text(SvgWriter& svg, double x, double y, std::string_view text, const TextStyle& style = {});

/// A straight line.
void write_line(SvgWriter& svg, double x1, double y1, double x2, double y2, const char* stroke, double width);

/// Lines of text below each other, the first baseline at y; returns the baseline for the next.
double write_lines(SvgWriter& svg, double x, double y, const std::vector<std::string>& lines,
                   const TextStyle& style = {});

/// Height of a line of text of that size.
double line_height(double size);

}  // namespace spadework::drawing
