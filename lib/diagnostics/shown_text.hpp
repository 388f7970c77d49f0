#pragma once

#include <string>
#include <string_view>

namespace spadework {

/// A piece of the input for messages: in single quotes, shortened to `longest` bytes or less with … behind, on one
/// line. Bytes that are not UTF-8 and control characters are shown as '?', line ends and tabs as spaces.
[[nodiscard]] std::string shown(std::string_view text, std::size_t longest = 40);

/// Bytes of the UTF-8 character that starts at `at` (RFC 3629), or 0 where none does.
[[nodiscard]] std::size_t character_length(std::string_view text, std::size_t at);

}  // namespace spadework
