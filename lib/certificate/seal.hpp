#pragma once

#include <string>
#include <string_view>

namespace spadework::certificate {

/// FNV-1a (Fowler, Noll, Vo), 64 bits, as 16 hexadecimal digits.
std::string checksum(std::string_view bytes);

/// What the last key of a certificate's text is called.
inline constexpr std::string_view seal_key = "\"seal\"";

}  // namespace spadework::certificate
