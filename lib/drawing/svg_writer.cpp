#include "drawing/svg_writer.hpp"

#include <cmath>

#include <fmt/format.h>

namespace spadework::drawing {

std::string number(double value) {
    if (!std::isfinite(value)) return "0";
    std::string text = fmt::format("{:.2f}", value);
    while (text.back() == '0')
        text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text == "-0" ? "0" : text;
}

std::string escaped(std::string_view text) {
    std::string result;
    for (const char character : text) {
        switch (character) {
            case '&':
                result += "&amp;";
                break;
            case '<':
                result += "&lt;";
                break;
            case '>':
                result += "&gt;";
                break;
            case '"':
                result += "&quot;";
                break;
            case '\'':
                result += "&#39;";
                break;
            default:
                result += character;
        }
    }
    return result;
}

void SvgWriter::begin_line(std::string_view element, const Attributes& attributes) {
    text_ += std::string(2 * (open_.size() + static_cast<std::size_t>(depth_)), ' ');
    text_ += fmt::format("<{}", element);
    for (const Attribute& attribute : attributes)
        text_ += fmt::format(" {}=\"{}\"", attribute.name, escaped(attribute.value));
}

void SvgWriter::open(std::string_view element, const Attributes& attributes) {
    begin_line(element, attributes);
    text_ += ">\n";
    open_.emplace_back(element);
}

void SvgWriter::close() {
    const std::string element = open_.back();
    open_.pop_back();
    text_ += std::string(2 * (open_.size() + static_cast<std::size_t>(depth_)), ' ') + fmt::format("</{}>\n", element);
}

void SvgWriter::leaf(std::string_view element, const Attributes& attributes) {
    begin_line(element, attributes);
    text_ += "/>\n";
}

void SvgWriter::text(std::string_view element, const Attributes& attributes, std::string_view content) {
    begin_line(element, attributes);
    text_ += fmt::format(">{}</{}>\n", escaped(content), element);
}

void SvgWriter::titled(std::string_view element, const Attributes& attributes, std::string_view title) {
    begin_line(element, attributes);
    text_ += fmt::format("><title>{}</title></{}>\n", escaped(title), element);
}

}  // namespace spadework::drawing
