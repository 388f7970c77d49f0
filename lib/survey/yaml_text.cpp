#include "survey/yaml_text.hpp"

#include <algorithm>
#include <array>
#include <charconv>

#include <fmt/format.h>

namespace spadework::survey {

namespace {

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// Letters, digits and a few harmless marks, from a letter on; not what some readers take for a truth value or nothing.
bool is_plain(std::string_view text) {
    constexpr std::array<std::string_view, 10> words = {"true", "false", "yes", "no", "on",
                                                        "off",  "null",  "y",   "n",  "nan"};
    if (text.empty() || !is_letter(text.front()) || text.back() == ' ') return false;
    std::string lowered(text);
    std::transform(lowered.begin(), lowered.end(), lowered.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    if (std::find(words.begin(), words.end(), lowered) != words.end()) return false;
    return std::all_of(text.begin(), text.end(), [](char c) {
        return is_letter(c) || (c >= '0' && c <= '9') || c == ' ' || c == '-' || c == '_' || c == '.' || c == '/';
    });
}

void append_degrees(std::string& text, double degrees) {
    std::array<char, 400> buffer{};
    const auto written =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), degrees, std::chars_format::fixed, 7);
    std::string_view digits(buffer.data(), static_cast<std::size_t>(written.ptr - buffer.data()));
    while (digits.back() == '0')
        digits.remove_suffix(1);
    if (digits.back() == '.') digits.remove_suffix(1);
    text += digits == "-0" ? "0" : digits;
}

}  // namespace

std::string yaml_scalar(std::string_view text) {
    if (is_plain(text)) return std::string(text);
    std::string quoted = "\"";
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') {
            quoted += '\\';
            quoted += c;
        } else if (byte < 0x20 || byte == 0x7F) {
            quoted += fmt::format("\\x{:02x}", byte);
        } else {
            quoted += c;
        }
    }
    return quoted + "\"";
}

void append_position(std::string& text, const Position& degrees) {
    text += '[';
    append_degrees(text, degrees.x);
    text += ", ";
    append_degrees(text, degrees.y);
    text += ']';
}

std::string indented(std::string_view text, int spaces) {
    std::string result;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        std::string_view line = text.substr(0, end);
        if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
        if (!line.empty()) result.append(static_cast<std::size_t>(spaces), ' ');
        result += line;
        result += '\n';
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return result;
}

}  // namespace spadework::survey
