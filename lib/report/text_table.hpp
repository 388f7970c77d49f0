#pragma once

#include <string>
#include <vector>

namespace spadework::report {

/// Widest line of any text report, in columns of a terminal.
inline constexpr int report_width = 100;

enum class Align { left, right };

struct Column {
    std::string heading;  ///< May hold line breaks.
    Align align = Align::left;
    bool wraps = false;  ///< Long cells may be broken over lines to keep the table within the report's width.
};

/// Cells in columns under headings, for text() or for another writer. Cells are shown as they are: pass names of any
/// origin through shown() first. Widths are those of a terminal, not bytes.
class TextTable {
public:
    explicit TextTable(std::vector<Column> columns) : columns_(std::move(columns)) {}

    struct Row {
        std::vector<std::string> cells;
        bool rule_above = false;
        bool is_sum = false;
    };

    /// One cell a column; missing cells are empty.
    void add(std::vector<std::string> cells) { rows_.push_back({std::move(cells)}); }
    /// A row that sums up rows above it and stands among others.
    void add_sum(std::vector<std::string> cells) { rows_.push_back({std::move(cells), false, true}); }
    /// A row with a rule above it.
    void add_total(std::vector<std::string> cells) { rows_.push_back({std::move(cells), true, true}); }

    [[nodiscard]] bool empty() const { return rows_.empty(); }
    [[nodiscard]] const std::vector<Column>& columns() const { return columns_; }
    [[nodiscard]] const std::vector<Row>& rows() const { return rows_; }
    /// Columns aligned, a rule below the headings, every line ended by a line break, no spaces at line ends.
    [[nodiscard]] std::string text() const;

private:
    [[nodiscard]] std::vector<int> widths() const;

    std::vector<Column> columns_;
    std::vector<Row> rows_;
};

}  // namespace spadework::report
