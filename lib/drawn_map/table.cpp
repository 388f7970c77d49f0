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

}  // namespace

TableReader::TableReader(std::string_view text) : text_(text) {
    at_ = std::min(text_.find_first_not_of("\r\n"), text_.size());
    const std::string_view first = first_line();
    if (first.size() == 5 && small_letters(first).starts_with("sep=")) {
        separator_ = first[4];
        at_ += first.size();
    } else {
        separator_ = separator_of(first);
    }
}

std::string_view TableReader::first_line() const {
    return text_.substr(at_, text_.find_first_of("\r\n", at_) - at_);
}

std::optional<TableRow> TableReader::next() {
    while (at_ < text_.size()) {
        TableRow row = read_row();
        const bool empty = std::ranges::all_of(row, [](const Cell& cell) { return trimmed(cell.text).empty(); });
        if (!empty) return row;
    }
    return std::nullopt;
}

TableRow TableReader::read_row() {
    TableRow row;
    for (;;) {
        row.push_back(read_cell());
        if (at_ >= text_.size()) return row;
        const char end = text_[at_++];
        if (end == separator_) continue;
        if (end == '\r' && at_ < text_.size() && text_[at_] == '\n') ++at_;
        return row;
    }
}

/// Stops at the separator or line end behind the cell.
Cell TableReader::read_cell() {
    Cell cell{{}, at_};
    if (text_.substr(at_).starts_with('"')) read_quoted(cell);
    // What stands behind a closing quote belongs to the cell, as spreadsheets have it.
    while (at_ < text_.size() && text_[at_] != separator_ && text_[at_] != '\r' && text_[at_] != '\n')
        cell.text += text_[at_++];
    return cell;
}

void TableReader::read_quoted(Cell& cell) {
    ++at_;
    for (;;) {
        const std::size_t close = text_.find('"', at_);
        if (close == npos) {
            if (unclosed_quote_ == npos) unclosed_quote_ = cell.offset;
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

}  // namespace spadework::drawn_map
