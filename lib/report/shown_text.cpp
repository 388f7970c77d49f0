#include "report/shown_text.hpp"

#include <algorithm>

#include "diagnostics/character.hpp"

namespace spadework::report {

namespace {

constexpr CodeRange wide[] = {{0x1100, 0x115E}, {0x2E80, 0x303E},   {0x3041, 0x33FF},  {0x3400, 0x4DBF},
                              {0x4E00, 0xA4CF}, {0xAC00, 0xD7A3},   {0xF900, 0xFAFF},  {0xFE30, 0xFE6F},
                              {0xFF00, 0xFF60}, {0x1F300, 0x1FAFF}, {0x20000, 0x3FFFD}};

int width_of(const Character& character) {
    if (is_combining(character)) return 0;
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
        result += harmless(text, at, character);
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
