#include "diagnostics/shown_text.hpp"

#include <algorithm>

#include "diagnostics/character.hpp"

namespace spadework {

namespace {

unsigned char byte(char c) {
    return static_cast<unsigned char>(c);
}

/// A character of the text as it is shown.
std::string_view as_shown(std::string_view character) {
    if (character == "\n" || character == "\r" || character == "\t") return " ";
    // UTF-8 writes U+0080 to U+009F as C2 and one more byte.
    const bool high_control = byte(character[0]) == 0xC2 && byte(character[1]) < 0xA0;
    return high_control || byte(character[0]) < 0x20 || byte(character[0]) == 0x7F ? "?" : character;
}

}  // namespace

std::size_t character_length(std::string_view text, std::size_t at) {
    const Character character = character_at(text, at);
    return character.valid ? character.bytes : 0;
}

std::string shown(std::string_view text, std::size_t longest) {
    std::string words = "'";
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = character_length(text, i);
        if (i + std::max<std::size_t>(length, 1) > longest) return words + "…'";
        words += length == 0 ? "?" : as_shown(text.substr(i, length));
        i += std::max<std::size_t>(length, 1);
    }
    return words + "'";
}

}  // namespace spadework
