#pragma once

// Characters of a text in UTF-8, for whatever shows text of the input to people.

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace spadework {

/// One character of a text, or one byte that belongs to none.
struct Character {
    std::uint32_t code = 0;  ///< The byte itself where it belongs to no character.
    std::size_t bytes = 1;
    bool valid = false;
};

/// The character that starts at `at`, by RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF.
[[nodiscard]] Character character_at(std::string_view text, std::size_t at);

/// U+0000 to U+001F and U+007F to U+009F.
[[nodiscard]] bool is_control(const Character& character);

/// Line, direction and format controls, characters without a glyph of their own, and those that XML forbids.
[[nodiscard]] bool is_hidden(const Character& character);

/// Marks that stand over or under the character before them.
[[nodiscard]] bool is_combining(const Character& character);

/// The character as text that no terminal, page or reader obeys: "\x1B" for a byte that belongs to no character or a
/// control, "\u202E" for what is hidden, itself otherwise.
[[nodiscard]] std::string harmless(std::string_view text, std::size_t at, const Character& character);

/// Codes from first to last.
struct CodeRange {
    std::uint32_t first = 0;
    std::uint32_t last = 0;
};
[[nodiscard]] inline bool within(std::span<const CodeRange> ranges, std::uint32_t code) {
    return std::ranges::any_of(ranges,
                               [code](const CodeRange& range) { return code >= range.first && code <= range.last; });
}

}  // namespace spadework
