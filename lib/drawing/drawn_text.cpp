#include "drawing/drawn_text.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

#include "diagnostics/character.hpp"

namespace spadework::drawing {

namespace {

constexpr const char* ellipsis = "\xE2\x80\xA6";

constexpr CodeRange right_to_left[] = {{0x0590, 0x08FF},   {0xFB1D, 0xFDFF},   {0xFE70, 0xFEFE},
                                       {0x10800, 0x10FFF}, {0x1E800, 0x1EFFF}, {0x200F, 0x200F}};
constexpr CodeRange broad[] = {{0x1100, 0x115F}, {0x2E80, 0xA4CF}, {0xAC00, 0xD7A3}, {0xF900, 0xFAFF},
                               {0xFDF0, 0xFDFF}, {0xFE30, 0xFE6F}, {0xFF00, 0xFF60}, {0x1F000, 0x3FFFD}};

/// Hundredths of the font size, of the characters from space to tilde: the larger of the advance widths measured in
/// DejaVu Sans and Liberation Sans.
constexpr std::array<int, 95> hundredths = {
    32, 40, 46, 84, 64, 95, 78, 27, 39,  39, 50, 84, 32, 36, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64,
    64, 64, 34, 34, 84, 84, 84, 56, 102, 69, 69, 72, 77, 67, 61, 78, 75, 29, 50, 67, 56, 86, 75, 79,
    67, 79, 72, 67, 61, 73, 68, 99, 69,  67, 69, 39, 34, 39, 84, 56, 50, 61, 63, 55, 63, 62, 35, 63,
    63, 28, 28, 58, 28, 97, 63, 61, 63,  63, 41, 52, 39, 63, 59, 82, 59, 59, 52, 64, 34, 64, 84};

int hundredths_of(const Character& character) {
    const std::uint32_t code = character.code;
    if (code >= 0x20 && code < 0x7F) return hundredths[code - 0x20];
    const bool isolate = code == 0x2068 || code == 0x2069;
    if (is_combining(character) || isolate) return 0;
    if (code == 0xB7) return 32;
    if (within(broad, code)) return 110;
    if (code < 0x0250) return code == 0x0152 || code == 0xC6 ? 107 : 80;
    if (within(right_to_left, code)) return 80;
    return 110;
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
        result += harmless(text, at, character);
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
        sum += hundredths_of(character);
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
