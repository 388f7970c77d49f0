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

std::size_t character_length(std::string_view text, std::size_t at) {
    const unsigned char lead = byte(text[at]);
    if (lead < 0x80) return 1;
    const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || length > text.size() - at) return 0;
    for (std::size_t i = at + 1; i < at + length; ++i) {
        if ((byte(text[i]) & 0xC0U) != 0x80U) return 0;
    }
    const unsigned char second = byte(text[at + 1]);
    const bool overlong = (lead == 0xE0 && second < 0xA0) || (lead == 0xF0 && second < 0x90);
    const bool surrogate = lead == 0xED && second > 0x9F;
    const bool beyond_last = lead == 0xF4 && second > 0x8F;
    return overlong || surrogate || beyond_last ? 0 : length;
}

std::string shown(std::string_view text) {
    constexpr std::size_t longest = 40;
    std::string readable;
    bool whole = true;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = character_length(text, i);
        if (readable.size() + std::max<std::size_t>(length, 1) > longest) {
            whole = false;
            break;
        }
        readable += length == 0 ? "?" : text.substr(i, length);
        i += std::max<std::size_t>(length, 1);
    }
    return "'" + one_line(readable).text + (whole ? "'" : "…'");
}

}  // namespace spadework::drawn_map
