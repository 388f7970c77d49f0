#include "diagnostics/shown_text.hpp"

#include <algorithm>

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
