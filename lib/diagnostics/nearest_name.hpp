#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace spadework {

/// Number of single-character insertions, deletions, substitutions and swaps of neighbours that turn one text into the
/// other (optimal string alignment distance), over bytes. Texts longer than 64 bytes are compared by their first 64.
[[nodiscard]] int edit_distance(std::string_view a, std::string_view b);

/// The known name closest to what was written, or "" when none is within a third of its length (or one edit, if that
/// leaves anything of it). Ties go to the first.
[[nodiscard]] std::string nearest_name(std::string_view written, const std::vector<std::string>& known);

}  // namespace spadework
