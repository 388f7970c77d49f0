#include "drawn_map/table.hpp"

#include <algorithm>

#include "drawn_map/plain_text.hpp"

namespace spadework::drawn_map {

namespace {

constexpr auto npos = std::string_view::npos;

char separator_of(std::string_view line) {
    constexpr std::string_view candidates = ";\t,|";
    std::size_t counts[candidates.size()] = {};
    bool in_quotes = false;
    for (const char c : line) {
        if (c == '"') in_quotes = !in_quotes;
        const std::size_t candidate = candidates.find(c);
        if (!in_quotes && candidate != npos) ++counts[candidate];
    }
    return candidates[static_cast<std::size_t>(std::ranges::max_element(counts) - counts)];
}

class TableReader {
public:
    explicit TableReader(std::string_view text) : text_(text) {}

    Table read() {
        find_separator();
        while (at_ < text_.size()) {
            std::vector<Cell> row = read_row();
            const bool empty = std::ranges::all_of(row, [](const Cell& cell) { return trimmed(cell.text).empty(); });
            if (!empty) table_.rows.push_back(std::move(row));
        }
        return std::move(table_);
    }

private:
    std::string_view line_at(std::size_t at) const { return text_.substr(at, text_.find_first_of("\r\n", at) - at); }

    void find_separator() {
        at_ = std::min(text_.find_first_not_of("\r\n"), text_.size());
        const std::string_view first = line_at(at_);
        if (first.size() == 5 && small_letters(first).starts_with("sep=")) {
            table_.separator = first[4];
            at_ += first.size();
        } else {
            table_.separator = separator_of(first);
        }
    }

    std::vector<Cell> read_row() {
        std::vector<Cell> row;
        for (;;) {
            row.push_back(read_cell());
            if (at_ >= text_.size()) return row;
            const char end = text_[at_++];
            if (end == table_.separator) continue;
            if (end == '\r' && at_ < text_.size() && text_[at_] == '\n') ++at_;
            return row;
        }
    }

    /// Stops at the separator or line end behind the cell.
    Cell read_cell() {
        Cell cell{{}, at_};
        if (text_.substr(at_).starts_with('"')) read_quoted(cell);
        // What stands behind a closing quote belongs to the cell, as spreadsheets have it.
        while (at_ < text_.size() && text_[at_] != table_.separator && text_[at_] != '\r' && text_[at_] != '\n')
            cell.text += text_[at_++];
        return cell;
    }

    void read_quoted(Cell& cell) {
        ++at_;
        for (;;) {
            const std::size_t close = text_.find('"', at_);
            if (close == npos) {
                if (table_.unclosed_quote == npos) table_.unclosed_quote = cell.offset;
                cell.text += text_.substr(at_);
                at_ = text_.size();
                return;
            }
            cell.text += text_.substr(at_, close - at_);
            at_ = close + 1;
            if (!text_.substr(at_).starts_with('"')) return;
            cell.text += '"';
            ++at_;
        }
    }

    std::string_view text_;
    std::size_t at_ = 0;
    Table table_;
};

}  // namespace

Table read_table(std::string_view text) {
    return TableReader(text).read();
}

}  // namespace spadework::drawn_map
