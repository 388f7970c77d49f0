#include "report/html_writer.hpp"

#include <algorithm>
#include <array>

#include "drawing/svg_writer.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

/// Elements within a line of text, where a line break would be a space.
bool is_inline(std::string_view element) {
    constexpr std::array<std::string_view, 5> within_lines = {"a", "strong", "span", "bdi", "code"};
    return std::find(within_lines.begin(), within_lines.end(), element) != within_lines.end();
}

bool begins_character(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
}

}  // namespace

std::string escaped_html(std::string_view text) {
    return drawing::escaped(shown(text));
}

std::string shortened(std::string_view text) {
    constexpr int most_characters = 120;
    const std::string whole = shown(text);
    int characters = 0;
    for (std::size_t at = 0; at < whole.size(); ++at) {
        if (!begins_character(whole[at])) continue;
        if (++characters > most_characters) return whole.substr(0, at) + "…";
    }
    return whole;
}

void HtmlWriter::empty(std::string_view element, const Attributes& attributes) {
    text_ += '<';
    text_ += element;
    for (const auto& [name, value] : attributes) {
        text_ += ' ';
        text_ += name;
        text_ += "=\"" + escaped_html(value) + '"';
    }
    text_ += '>';
    if (!is_inline(element)) text_ += '\n';
}

void HtmlWriter::open(std::string_view element, const Attributes& attributes) {
    empty(element, attributes);
    begun_.emplace_back(element);
}

void HtmlWriter::close() {
    const std::string element = begun_.back();
    begun_.pop_back();
    text_ += "</" + element + '>';
    if (!is_inline(element)) text_ += '\n';
}

void HtmlWriter::text(std::string_view value) {
    text_ += escaped_html(value);
}

void HtmlWriter::element(std::string_view element, std::string_view value, const Attributes& attributes) {
    open(element, attributes);
    if (!is_inline(element)) text_.pop_back();
    text(value);
    close();
}

void HtmlWriter::style(std::string_view css) {
    text_ += "<style>\n";
    text_ += css;
    text_ += "</style>\n";
}

void HtmlWriter::picture(std::string_view svg) {
    text_ += svg;
    if (svg.empty() || svg.back() != '\n') text_ += '\n';
}

std::string HtmlWriter::finished() const {
    return "<!DOCTYPE html>\n" + text_;
}

}  // namespace spadework::report
