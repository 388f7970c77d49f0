#include "diagnostics/character.hpp"

#include <array>

#include <fmt/format.h>

namespace spadework {

namespace {

constexpr CodeRange hidden[] = {{0x00AD, 0x00AD}, {0x061C, 0x061C}, {0x115F, 0x1160}, {0x180E, 0x180E},
                                {0x200B, 0x200F}, {0x2028, 0x202E}, {0x2060, 0x206F}, {0x3164, 0x3164},
                                {0xFEFF, 0xFEFF}, {0xFFF0, 0xFFFB}, {0xFFFE, 0xFFFF}, {0xE0000, 0xE0FFF}};
constexpr CodeRange combining[] = {{0x0300, 0x036F}, {0x0483, 0x0489}, {0x0591, 0x05BD}, {0x0610, 0x061A},
                                   {0x064B, 0x065F}, {0x0E34, 0x0E3A}, {0x0E47, 0x0E4E}, {0x1AB0, 0x1AFF},
                                   {0x1DC0, 0x1DFF}, {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}};

std::uint32_t byte_at(std::string_view text, std::size_t at) {
    return static_cast<unsigned char>(text[at]);
}

/// Bytes that a lead byte announces; 0 when it is none.
std::size_t bytes_announced(std::uint32_t lead) {
    if (lead < 0x80) return 1;
    if (lead < 0xC2 || lead > 0xF4) return 0;
    return lead < 0xE0 ? 2 : (lead < 0xF0 ? 3 : 4);
}

}  // namespace

Character character_at(std::string_view text, std::size_t at) {
    const std::uint32_t lead = byte_at(text, at);
    const std::size_t bytes = bytes_announced(lead);
    if (bytes == 0 || bytes > text.size() - at) return {lead, 1, false};
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

bool is_control(const Character& character) {
    return character.code < 0x20 || (character.code >= 0x7F && character.code < 0xA0);
}

bool is_hidden(const Character& character) {
    return within(hidden, character.code);
}

bool is_combining(const Character& character) {
    return within(combining, character.code);
}

std::string harmless(std::string_view text, std::size_t at, const Character& character) {
    if (!character.valid || is_control(character)) return fmt::format("\\x{:02X}", character.code);
    if (is_hidden(character)) return fmt::format("\\u{:04X}", character.code);
    return std::string(text.substr(at, character.bytes));
}

}  // namespace spadework
