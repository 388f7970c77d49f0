#include "report/text_table.hpp"

#include <algorithm>
#include <numeric>

#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

constexpr int gap = 2;
constexpr int narrowest = 10;

using Lines = std::vector<std::string>;

Lines lines_of(const std::string& text) {
    Lines lines(1);
    for (const char c : text) {
        if (c == '\n') {
            lines.emplace_back();
        } else {
            lines.back() += c;
        }
    }
    return lines;
}

int widest(const Lines& lines) {
    int width = 0;
    for (const std::string& line : lines)
        width = std::max(width, display_width(line));
    return width;
}

std::string padded(const std::string& text, int width, Align align) {
    const std::string space(static_cast<std::size_t>(std::max(0, width - display_width(text))), ' ');
    return align == Align::left ? text + space : space + text;
}

int total_of(const std::vector<int>& widths) {
    return std::accumulate(widths.begin(), widths.end(), gap * (static_cast<int>(widths.size()) - 1));
}

void end_line(std::string& text) {
    while (!text.empty() && text.back() == ' ')
        text.pop_back();
    text += '\n';
}

/// Cells of several lines side by side, `bottom` aligned for headings.
std::string block(const std::vector<Lines>& cells, const std::vector<Column>& columns, const std::vector<int>& widths,
                  bool bottom) {
    std::size_t height = 1;
    for (const Lines& lines : cells)
        height = std::max(height, lines.size());
    std::string text;
    for (std::size_t row = 0; row < height; ++row) {
        for (std::size_t c = 0; c < columns.size(); ++c) {
            const std::size_t above = bottom ? height - cells[c].size() : 0;
            const bool has_line = row >= above && row - above < cells[c].size();
            if (c > 0) text += std::string(gap, ' ');
            text += padded(has_line ? cells[c][row - above] : "", widths[c], columns[c].align);
        }
        end_line(text);
    }
    return text;
}

}  // namespace

std::vector<int> TextTable::widths() const {
    std::vector<int> widths;
    std::vector<int> least;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
        int width = widest(lines_of(columns_[c].heading));
        least.push_back(std::max(width, narrowest));
        for (const Row& row : rows_) {
            if (c < row.cells.size()) width = std::max(width, display_width(row.cells[c]));
        }
        widths.push_back(width);
    }
    while (total_of(widths) > report_width) {
        int widest_column = -1;
        for (std::size_t c = 0; c < columns_.size(); ++c) {
            if (!columns_[c].wraps || widths[c] <= least[c]) continue;
            if (widest_column < 0 || widths[c] > widths[static_cast<std::size_t>(widest_column)]) {
                widest_column = static_cast<int>(c);
            }
        }
        if (widest_column < 0) break;
        --widths[static_cast<std::size_t>(widest_column)];
    }
    return widths;
}

std::string TextTable::text() const {
    const std::vector<int> column_widths = widths();
    const std::string rule = std::string(static_cast<std::size_t>(total_of(column_widths)), '-') + "\n";
    std::vector<Lines> headings;
    for (const Column& column : columns_)
        headings.push_back(lines_of(column.heading));
    std::string text = block(headings, columns_, column_widths, true) + rule;
    for (const Row& row : rows_) {
        std::vector<Lines> cells(columns_.size(), Lines(1));
        for (std::size_t c = 0; c < std::min(columns_.size(), row.cells.size()); ++c) {
            cells[c] = columns_[c].wraps ? wrapped(row.cells[c], column_widths[c]) : Lines{row.cells[c]};
        }
        if (row.rule_above) text += rule;
        text += block(cells, columns_, column_widths, false);
    }
    return text;
}

}  // namespace spadework::report
