#include "report/shown_text.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <utility>

#include <fmt/format.h>

namespace spadework::report {

namespace {

/// One character of a text, or one byte that belongs to none.
struct Character {
    std::uint32_t code = 0;
    std::size_t bytes = 1;
    bool valid = false;
};

std::uint32_t byte_at(std::string_view text, std::size_t at) {
    return static_cast<unsigned char>(text[at]);
}

std::size_t length_from_lead(std::uint32_t lead) {
    if (lead < 0x80) return 1;
    if (lead >= 0xC2 && lead <= 0xDF) return 2;
    if (lead >= 0xE0 && lead <= 0xEF) return 3;
    if (lead >= 0xF0 && lead <= 0xF4) return 4;
    return 0;
}

/// The character that starts at `at`, by RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF.
Character character_at(std::string_view text, std::size_t at) {
    const std::uint32_t lead = byte_at(text, at);
    const std::size_t length = length_from_lead(lead);
    if (length == 0 || at + length > text.size()) return {lead, 1, false};
    std::uint32_t code = length == 1 ? lead : lead & (0x7FU >> length);
    for (std::size_t i = 1; i < length; ++i) {
        const std::uint32_t next = byte_at(text, at + i);
        if ((next & 0xC0U) != 0x80U) return {lead, 1, false};
        code = (code << 6U) | (next & 0x3FU);
    }
    constexpr std::array<std::uint32_t, 5> least = {0, 0, 0x80, 0x800, 0x10000};
    const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    if (code < least[length] || surrogate || code > 0x10FFFF) return {lead, 1, false};
    return {code, length, true};
}

struct Range {
    std::uint32_t first;
    std::uint32_t last;
};

template <std::size_t N>
bool within(const std::array<Range, N>& ranges, std::uint32_t code) {
    return std::any_of(ranges.begin(), ranges.end(),
                       [code](const Range& range) { return code >= range.first && code <= range.last; });
}

/// Line, direction and format controls, and characters with no glyph.
constexpr std::array<Range, 11> hidden = {{{0x00AD, 0x00AD},
                                           {0x061C, 0x061C},
                                           {0x115F, 0x1160},
                                           {0x180E, 0x180E},
                                           {0x200B, 0x200F},
                                           {0x2028, 0x202E},
                                           {0x2060, 0x206F},
                                           {0x3164, 0x3164},
                                           {0xFEFF, 0xFEFF},
                                           {0xFFF0, 0xFFFB},
                                           {0xE0000, 0xE0FFF}}};
constexpr std::array<Range, 12> combining = {{{0x0300, 0x036F},
                                              {0x0483, 0x0489},
                                              {0x0591, 0x05BD},
                                              {0x0610, 0x061A},
                                              {0x064B, 0x065F},
                                              {0x0E34, 0x0E3A},
                                              {0x0E47, 0x0E4E},
                                              {0x1AB0, 0x1AFF},
                                              {0x1DC0, 0x1DFF},
                                              {0x20D0, 0x20FF},
                                              {0xFE00, 0xFE0F},
                                              {0xFE20, 0xFE2F}}};
constexpr std::array<Range, 11> wide = {{{0x1100, 0x115E},
                                         {0x2E80, 0x303E},
                                         {0x3041, 0x33FF},
                                         {0x3400, 0x4DBF},
                                         {0x4E00, 0xA4CF},
                                         {0xAC00, 0xD7A3},
                                         {0xF900, 0xFAFF},
                                         {0xFE30, 0xFE6F},
                                         {0xFF00, 0xFF60},
                                         {0x1F300, 0x1FAFF},
                                         {0x20000, 0x3FFFD}}};

bool is_control(std::uint32_t code) {
    return code < 0x20 || (code >= 0x7F && code < 0xA0);
}

std::string shown_character(std::string_view text, std::size_t at, const Character& character) {
    if (!character.valid || is_control(character.code)) return fmt::format("\\x{:02X}", character.code);
    if (within(hidden, character.code)) return fmt::format("\\u{:04X}", character.code);
    return std::string(text.substr(at, character.bytes));
}

int width_of(const Character& character) {
    if (within(combining, character.code)) return 0;
    return within(wide, character.code) ? 2 : 1;
}

/// The longest start of a text that takes at most `width` columns, at least one character.
std::size_t bytes_within(std::string_view text, int width) {
    int used = 0;
    std::size_t at = 0;
    while (at < text.size()) {
        const Character character = character_at(text, at);
        used += width_of(character);
        if (used > width && at > 0) break;
        at += character.bytes;
    }
    return at;
}

std::vector<std::string_view> words_of(std::string_view text) {
    std::vector<std::string_view> words;
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        if (end > at) words.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return words;
}

}  // namespace

std::string shown(std::string_view text) {
    std::string result;
    for (std::size_t at = 0; at < text.size();) {
        const Character character = character_at(text, at);
        result += shown_character(text, at, character);
        at += character.bytes;
    }
    return result;
}

std::string valid_utf8(std::string_view text) {
    std::string result;
    for (std::size_t at = 0; at < text.size();) {
        const Character character = character_at(text, at);
        result += character.valid ? std::string(text.substr(at, character.bytes)) : "\xEF\xBF\xBD";
        at += character.bytes;
    }
    return result;
}

int display_width(std::string_view text) {
    int width = 0;
    for (std::size_t at = 0; at < text.size();) {
        const Character character = character_at(text, at);
        width += width_of(character);
        at += character.bytes;
    }
    return width;
}

std::vector<std::string> wrapped(std::string_view text, int width) {
    width = std::max(width, 10);
    std::vector<std::string> lines(1);
    for (std::string_view word : words_of(text)) {
        const int gap = lines.back().empty() ? 0 : 1;
        if (display_width(lines.back()) + gap + display_width(word) <= width) {
            lines.back() += std::string(static_cast<std::size_t>(gap), ' ') + std::string(word);
            continue;
        }
        if (gap == 1) lines.emplace_back();
        while (display_width(word) > width) {
            const std::size_t bytes = bytes_within(word, width);
            lines.back() = word.substr(0, bytes);
            lines.emplace_back();
            word.remove_prefix(bytes);
        }
        lines.back() = word;
    }
    return lines;
}

}  // namespace spadework::report
