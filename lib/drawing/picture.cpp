#include "drawing/picture.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace spadework::drawing {

double usable_width(const Frame& frame) {
    return std::isfinite(frame.width) ? std::clamp(frame.width, narrowest, 10000.0) : 960.0;
}

std::string picture(const Frame& frame, const Heading& heading, double height, const SvgWriter& body) {
    const Ids ids(frame, heading.kind);
    const double width = usable_width(frame);
    SvgWriter svg;
    svg.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"},
                     {"version", "1.1"},
                     {"width", width},
                     {"height", height},
                     {"viewBox", fmt::format("0 0 {} {}", number(width), number(height))},
                     {"role", "img"},
                     {"aria-labelledby", ids.id("title") + " " + ids.id("desc")},
                     {"font-family", font_family},
                     {"font-size", text_size}});
    svg.text("title", {{"id", ids.id("title")}}, heading.title);
    svg.text("desc", {{"id", ids.id("desc")}}, heading.description);
    svg.leaf("rect", {{"width", width}, {"height", height}, {"fill", colour::paper}});
    svg.add(body);
    svg.close();
    const std::string declaration = frame.own_file ? "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" : "";
    return declaration + svg.written();
}

void write_text(SvgWriter& svg, double x, double y, std::string_view text, const TextStyle& style) {
    Attributes attributes = {{"x", x}, {"y", y}, {"font-size", style.lettering.size}, {"fill", style.colour}};
    if (style.lettering.bold) attributes.emplace_back("font-weight", "bold");
    if (style.anchor != Anchor::start)
        attributes.emplace_back("text-anchor", style.anchor == Anchor::middle ? "middle" : "end");
    svg.text("text", attributes, text);
}

void write_line(SvgWriter& svg, double x1, double y1, double x2, double y2, const char* stroke, double width) {
    svg.leaf("line", {{"x1", x1}, {"y1", y1}, {"x2", x2}, {"y2", y2}, {"stroke", stroke}, {"stroke-width", width}});
}

double line_height(double size) {
    return std::round(1.35 * size);
}

double write_lines(SvgWriter& svg, double x, double y, const std::vector<std::string>& lines, const TextStyle& style) {
    for (const std::string& line : lines) {
        write_text(svg, x, y, line, style);
        y += line_height(style.lettering.size);
    }
    return y;
}

}  // namespace spadework::drawing
