#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace spadework::report {

/// A title with a line below it and a blank line above.
std::string heading(std::string_view title);

/// Text wrapped to the report's width, ended by a line break.
std::string paragraph(std::string_view text);

/// Each text wrapped behind a dash.
std::string bullets(const std::vector<std::string>& texts);

}  // namespace spadework::report
