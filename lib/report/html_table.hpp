#pragma once

#include <string_view>

#include "report/html_writer.hpp"
#include "report/text_table.hpp"

namespace spadework::report {

/// The table under a caption, with the scope of each header said, in a box of its own that scrolls where the page is
/// too narrow. Rows with a rule above them are set off as totals. Long cells are shortened.
void write_table(HtmlWriter& html, std::string_view caption, const TextTable& table);

/// The one table of a section, named by the heading that stands above it and so without a caption.
void write_table_under(HtmlWriter& html, std::string_view heading, const TextTable& table);

}  // namespace spadework::report
