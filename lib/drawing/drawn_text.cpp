#include "drawing/drawn_text.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

#include <fmt/format.h>

namespace spadework::drawing {

namespace {

constexpr const char* ellipsis = "\xE2\x80\xA6";

/// One character of a text, or one byte that belongs to none.
struct Character {
    std::uint32_t code = 0;
    std::size_t bytes = 1;
    bool valid = false;
};

std::uint32_t byte_at(std::string_view text, std::size_t at) {
    return static_cast<unsigned char>(text[at]);
}

std::size_t bytes_of_lead(std::uint32_t lead) {
    if (lead < 0x80) return 1;
    if (lead < 0xC2 || lead > 0xF4) return 0;
    return lead < 0xE0 ? 2 : (lead < 0xF0 ? 3 : 4);
}

/// The character that starts at `at`, by RFC 3629.
Character character_at(std::string_view text, std::size_t at) {
    const std::uint32_t lead = byte_at(text, at);
    const std::size_t bytes = bytes_of_lead(lead);
    if (bytes == 0 || at + bytes > text.size()) return {lead, 1, false};
    std::uint32_t code = bytes == 1 ? lead : lead & (0x7FU >> bytes);
    for (std::size_t i = 1; i < bytes; ++i) {
        const std::uint32_t next = byte_at(text, at + i);
        if ((next & 0xC0U) != 0x80U) return {lead, 1, false};
        code = (code << 6U) | (next & 0x3FU);
    }
    constexpr std::array<std::uint32_t, 5> least = {0, 0, 0x80, 0x800, 0x10000};
    const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    if (code < least[bytes] || surrogate || code > 0x10FFFF) return {lead, 1, false};
    return {code, bytes, true};
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

/// Line, direction and format controls, characters with no glyph of their own, and those that XML forbids.
constexpr std::array<Range, 12> hidden = {{{0x00AD, 0x00AD},
                                           {0x061C, 0x061C},
                                           {0x115F, 0x1160},
                                           {0x180E, 0x180E},
                                           {0x200B, 0x200F},
                                           {0x2028, 0x202E},
                                           {0x2060, 0x206F},
                                           {0x3164, 0x3164},
                                           {0xFEFF, 0xFEFF},
                                           {0xFFF0, 0xFFFB},
                                           {0xFFFE, 0xFFFF},
                                           {0xE0000, 0xE0FFF}}};
constexpr std::array<Range, 6> right_to_left = {
    {{0x0590, 0x08FF}, {0xFB1D, 0xFDFF}, {0xFE70, 0xFEFE}, {0x10800, 0x10FFF}, {0x1E800, 0x1EFFF}, {0x200F, 0x200F}}};
constexpr std::array<Range, 10> combining = {{{0x0300, 0x036F},
                                              {0x0483, 0x0489},
                                              {0x0591, 0x05BD},
                                              {0x0610, 0x061A},
                                              {0x064B, 0x065F},
                                              {0x1AB0, 0x1AFF},
                                              {0x1DC0, 0x1DFF},
                                              {0x2068, 0x2069},
                                              {0x20D0, 0x20FF},
                                              {0xFE00, 0xFE0F}}};
constexpr std::array<Range, 8> broad = {{{0x1100, 0x115F},
                                         {0x2E80, 0xA4CF},
                                         {0xAC00, 0xD7A3},
                                         {0xF900, 0xFAFF},
                                         {0xFDF0, 0xFDFF},
                                         {0xFE30, 0xFE6F},
                                         {0xFF00, 0xFF60},
                                         {0x1F000, 0x3FFFD}}};

/// Hundredths of the font size, of the characters from space to tilde: the larger of the advance widths measured in
/// DejaVu Sans and Liberation Sans.
constexpr std::array<int, 95> hundredths = {
    32, 40, 46, 84, 64, 95, 78, 27, 39,  39, 50, 84, 32, 36, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64,
    64, 64, 34, 34, 84, 84, 84, 56, 102, 69, 69, 72, 77, 67, 61, 78, 75, 29, 50, 67, 56, 86, 75, 79,
    67, 79, 72, 67, 61, 73, 68, 99, 69,  67, 69, 39, 34, 39, 84, 56, 50, 61, 63, 55, 63, 62, 35, 63,
    63, 28, 28, 58, 28, 97, 63, 61, 63,  63, 41, 52, 39, 63, 59, 82, 59, 59, 52, 64, 34, 64, 84};

int hundredths_of(std::uint32_t code) {
    if (code >= 0x20 && code < 0x7F) return hundredths[code - 0x20];
    if (within(combining, code)) return 0;
    if (code == 0xB7) return 32;
    if (within(broad, code)) return 110;
    if (code < 0x0250) return code == 0x0152 || code == 0xC6 ? 107 : 80;
    if (within(right_to_left, code)) return 80;
    return 110;
}

std::string drawn_character(std::string_view text, std::size_t at, const Character& character) {
    const bool control = character.code < 0x20 || (character.code >= 0x7F && character.code < 0xA0);
    if (!character.valid || control) return fmt::format("\\x{:02X}", character.code);
    if (within(hidden, character.code)) return fmt::format("\\u{:04X}", character.code);
    return std::string(text.substr(at, character.bytes));
}

/// Appends the lines of one word that is wider than a line.
void break_word(std::string_view word, double width, const Lettering& lettering, std::vector<std::string>& lines) {
    for (std::size_t at = 0; at < word.size();) {
        const Character character = character_at(word, at);
        const std::string next(word.substr(at, character.bytes));
        if (!lines.back().empty() && width_of(lines.back() + next, lettering) > width) lines.emplace_back();
        lines.back() += next;
        at += character.bytes;
    }
}

}  // namespace

std::string drawn(std::string_view text, int most) {
    std::string result;
    int characters = 0;
    for (std::size_t at = 0; at < text.size();) {
        if (characters == most) return result + ellipsis;
        const Character character = character_at(text, at);
        result += drawn_character(text, at, character);
        at += character.bytes;
        ++characters;
    }
    return result;
}

std::string drawn_in_sentence(std::string_view text, int most) {
    const std::string result = drawn(text, most);
    for (std::size_t at = 0; at < result.size();) {
        const Character character = character_at(result, at);
        if (within(right_to_left, character.code)) return "\xE2\x81\xA8" + result + "\xE2\x81\xA9";
        at += character.bytes;
    }
    return result;
}

double width_of(std::string_view drawn_text, const Lettering& lettering) {
    constexpr double bold_factor = 1.15;
    int sum = 0;
    for (std::size_t at = 0; at < drawn_text.size();) {
        const Character character = character_at(drawn_text, at);
        sum += hundredths_of(character.code);
        at += character.bytes;
    }
    return sum / 100.0 * lettering.size * (lettering.bold ? bold_factor : 1.0);
}

std::string shortened(std::string_view drawn_text, double width, const Lettering& lettering) {
    if (width_of(drawn_text, lettering) <= width) return std::string(drawn_text);
    std::string result;
    for (std::size_t at = 0; at < drawn_text.size();) {
        const Character character = character_at(drawn_text, at);
        const std::string longer = result + std::string(drawn_text.substr(at, character.bytes));
        if (width_of(longer + ellipsis, lettering) > width) break;
        result = longer;
        at += character.bytes;
    }
    while (!result.empty() && result.back() == ' ')
        result.pop_back();
    return result + ellipsis;
}

std::vector<std::string> wrapped(std::string_view drawn_text, double width, const Lettering& lettering,
                                 std::size_t most_lines) {
    std::vector<std::string> lines(1);
    for (std::size_t at = 0; at < drawn_text.size();) {
        const std::size_t end = std::min(drawn_text.find(' ', at), drawn_text.size());
        const std::string word(drawn_text.substr(at, end - at));
        at = end + 1;
        if (word.empty()) continue;
        const std::string longer = lines.back().empty() ? word : lines.back() + " " + word;
        if (width_of(longer, lettering) <= width) {
            lines.back() = longer;
            continue;
        }
        if (!lines.back().empty()) lines.emplace_back();
        break_word(word, width, lettering, lines);
    }
    if (lines.size() <= most_lines) return lines;
    const std::string last = lines[most_lines - 1];
    lines.resize(most_lines);
    lines.back() = shortened(last + ellipsis, width, lettering);
    return lines;
}

}  // namespace spadework::drawing
