#pragma once

#include <string>
#include <string_view>

#include "diagnostics/diagnostic.hpp"

namespace spadework {

/// The source line that a position points at and a caret below its column, fit for a terminal; "" when the text has no
/// such line. Long lines are cut around the column. Columns count bytes from 1.
///
///     12 | price: -3
///        |        ^
std::string excerpt(std::string_view text, const SourcePosition& where);

}  // namespace spadework
