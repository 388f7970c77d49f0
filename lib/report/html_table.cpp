#include "report/html_table.hpp"

#include <algorithm>
#include <string>

namespace spadework::report {

namespace {

using Attributes = HtmlWriter::Attributes;

/// A table of so many rows or fewer is not broken over two sheets of paper.
constexpr std::size_t most_rows_kept_together = 26;

std::string on_one_line(std::string text) {
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
}

void write_headings(HtmlWriter& html, const TextTable& table) {
    html.open("thead");
    html.open("tr");
    for (const Column& column : table.columns()) {
        if (column.heading.empty()) {
            html.element("td", "");
            continue;
        }
        Attributes attributes = {{"scope", "col"}};
        if (column.align == Align::right) attributes.emplace_back("class", "n");
        html.element("th", on_one_line(column.heading), attributes);
    }
    html.close();
    html.close();
}

void write_cell(HtmlWriter& html, const Column& column, const std::string& cell, bool heads_row) {
    Attributes attributes;
    if (heads_row) attributes.emplace_back("scope", "row");
    if (column.align == Align::right) attributes.emplace_back("class", "n");
    html.element(heads_row ? "th" : "td", shortened(cell), attributes);
}

void write_row(HtmlWriter& html, const TextTable& table, const TextTable::Row& row) {
    Attributes attributes;
    if (row.is_sum) attributes.emplace_back("class", row.rule_above ? "total" : "sum");
    html.open("tr", attributes);
    for (std::size_t c = 0; c < table.columns().size(); ++c) {
        const std::string cell = c < row.cells.size() ? row.cells[c] : "";
        write_cell(html, table.columns()[c], cell, c == 0 && !cell.empty());
    }
    html.close();
}

enum class Caption { shown, above };

void write_named(HtmlWriter& html, std::string_view name, Caption caption, const TextTable& table) {
    const bool is_short = table.rows().size() <= most_rows_kept_together;
    html.open(
        "div",
        {{"class", is_short ? "table short" : "table"}, {"role", "region"}, {"aria-label", name}, {"tabindex", "0"}});
    html.open("table");
    if (caption == Caption::shown) html.element("caption", name);
    write_headings(html, table);
    html.open("tbody");
    for (const TextTable::Row& row : table.rows())
        write_row(html, table, row);
    html.close();
    html.close();
    html.close();
}

}  // namespace

void write_table(HtmlWriter& html, std::string_view caption, const TextTable& table) {
    write_named(html, caption, Caption::shown, table);
}

void write_table_under(HtmlWriter& html, std::string_view heading, const TextTable& table) {
    write_named(html, heading, Caption::above, table);
}

}  // namespace spadework::report
