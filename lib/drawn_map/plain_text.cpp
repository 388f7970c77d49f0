#include "drawn_map/plain_text.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace spadework::drawn_map {

namespace {

constexpr std::string_view white_space = " \t\r\n\f\v";

unsigned char byte(char c) {
    return static_cast<unsigned char>(c);
}

bool is_white(char c) {
    return white_space.find(c) != std::string_view::npos;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(white_space);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(white_space) - first + 1);
}

std::optional<double> decimal_number(std::string_view text) {
    text = trimmed(text);
    const bool plus = text.starts_with('+');
    if (plus) text.remove_prefix(1);
    const bool second_sign = plus && text.starts_with('-');
    if (second_sign || text.find_first_not_of("0123456789+-.eE") != std::string_view::npos) return {};
    double value = 0;
    const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (problem != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return {};
    return value;
}

std::string small_letters(std::string_view text) {
    std::string small(text);
    std::ranges::transform(small, small.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return small;
}

OneLine one_line(std::string_view text) {
    OneLine line;
    line.text.reserve(text.size());
    bool space_waits = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (is_white(text[i])) {
            space_waits = !line.text.empty();
            continue;
        }
        // UTF-8 writes U+0080 to U+009F as C2 and one more byte.
        const bool high_control = byte(text[i]) == 0xC2 && i + 1 < text.size() && byte(text[i + 1]) < 0xA0;
        if (high_control || byte(text[i]) < 0x20 || byte(text[i]) == 0x7F) {
            ++line.control_characters;
            if (high_control) ++i;
            continue;
        }
        if (space_waits) line.text += ' ';
        space_waits = false;
        line.text += text[i];
    }
    return line;
}

}  // namespace spadework::drawn_map
