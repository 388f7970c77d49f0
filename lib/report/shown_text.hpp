#pragma once

// Text of any origin made fit to show on a terminal.

#include <string>
#include <string_view>
#include <vector>

namespace spadework::report {

/// The text with everything that could move a cursor, hide or reorder characters written out instead: control
/// characters and bytes that are not UTF-8 as \x1B, line and direction controls and invisible characters as \u202E.
std::string shown(std::string_view text);

/// The text as valid UTF-8: each byte that belongs to no character becomes U+FFFD. Nothing else changes.
std::string valid_utf8(std::string_view text);

/// Columns of a terminal that a text takes: 2 for East Asian wide characters and emoji, 0 for combining marks, 1 for
/// the rest (the main ranges of Unicode Standard Annex 11 and of general category Mn; ranges from memory).
int display_width(std::string_view text);

/// Lines of at most `width` columns (10 or more), broken at spaces where there are any and inside a word where there
/// are none. At least one line.
std::vector<std::string> wrapped(std::string_view text, int width);

}  // namespace spadework::report
