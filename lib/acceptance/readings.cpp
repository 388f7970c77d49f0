#include "acceptance/readings.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>

#include <fmt/format.h>

#include "diagnostics/nearest_name.hpp"
#include "diagnostics/shown_text.hpp"
#include "drawn_map/line_index.hpp"
#include "drawn_map/plain_text.hpp"
#include "drawn_map/table.hpp"
#include "drawn_map/text_encoding.hpp"
#include "plan_file/plan_file.hpp"

namespace spadework::acceptance {

namespace {

using drawn_map::Cell;
using drawn_map::TableRow;

constexpr std::size_t most_problems = 50;
constexpr double most_loss_db = 1000;
constexpr double most_length = 1e7;

/// What a column holds.
enum Field { layout, building, link, strand, from, wavelength, loss, metres, feet, date, tested_by };
constexpr std::array<const char*, 11> headings = {"layout",
                                                  "building",
                                                  "link",
                                                  "strand",
                                                  "measured_from",
                                                  "wavelength_nm",
                                                  "measured_loss_db",
                                                  "measured_length_m",
                                                  "measured_length_ft",
                                                  "date",
                                                  "tested_by"};
constexpr std::array needed = {building, link, strand, from, wavelength, loss};

/// A text as it was before a table writer kept spreadsheets from taking it for a formula.
std::string unguarded(std::string text) {
    constexpr std::string_view formula_starts = "=+-@\t\r\n";
    const bool guarded = text.size() > 1 && text[0] == '\'' && formula_starts.find(text[1]) != std::string_view::npos;
    return guarded ? text.substr(1) : text;
}

class Reader {
public:
    Reader(const std::string& file, std::string_view text) : file_(file), lines_(text), table_(text) {}

    ReadReadings run() {
        if (read_headings()) {
            read_rows();
            settle_decimal_mark();
            for (const TableRow& row : rows_)
                read_row(row);
            if (!has_errors(result_.diagnostics) && result_.readings.empty()) complain_of_nothing();
        }
        sort_for_reading(result_.diagnostics);
        return std::move(result_);
    }

private:
    void add(Severity severity, std::size_t offset, const std::string& found, const std::string& wanted,
             const std::string& nearest = "") {
        if (result_.diagnostics.size() > most_problems) return;
        const auto [line, column] = lines_.at(offset);
        result_.diagnostics.push_back({{file_, line, column}, severity, found, wanted, nearest});
        if (result_.diagnostics.size() == most_problems)
            result_.diagnostics.push_back({{file_, 0, 0}, Severity::error, "more problems", "none", {}});
    }
    void error(const Cell& where, const std::string& found, const std::string& wanted) {
        add(Severity::error, where.offset, found, wanted);
    }

    void complain_of_nothing() {
        result_.diagnostics.push_back({{file_, 0, 0},
                                       Severity::error,
                                       fmt::format("no reading in any of {} rows", rows_.size()),
                                       fmt::format("numbers under '{}'", headings[loss]),
                                       {}});
    }

    bool quotes_close() {
        if (table_.unclosed_quote() == std::string_view::npos) return true;
        add(Severity::error, table_.unclosed_quote(), "a quote that nothing closes", "a second \" at the cell's end");
        return false;
    }

    bool read_headings() {
        const auto row = table_.next();
        if (!row) {
            add(Severity::error, 0, "an empty file", "the test sheet, test-sheet.csv, with its readings filled in");
            return false;
        }
        if (!quotes_close()) return false;
        heading_row_ = *row;
        for (std::size_t c = 0; c < row->size(); ++c)
            note_heading((*row)[c], c);
        for (const Field field : needed) {
            if (column_of_.contains(field)) continue;
            add(Severity::error, row->front().offset, fmt::format("no heading '{}'", headings[field]),
                "the headings of the test sheet", nearest_name(headings[field], unknown_));
        }
        if (column_of_.contains(metres) && column_of_.contains(feet))
            error((*row)[column_of_[feet]], "lengths in metres and in feet", "one of them");
        return !has_errors(result_.diagnostics);
    }

    void note_heading(const Cell& cell, std::size_t column) {
        const std::string name = drawn_map::small_letters(drawn_map::trimmed(cell.text));
        const auto known = std::ranges::find_if(headings, [&](const char* heading) { return name == heading; });
        if (known == headings.end()) {
            if (!name.empty()) unknown_.push_back(name);
            warn_of_likely_heading(cell, name);
            return;
        }
        const auto field = static_cast<Field>(known - headings.begin());
        if (!column_of_.emplace(field, column).second)
            error(cell, fmt::format("heading '{}' twice", name), "each heading once");
    }

    /// A column whose heading is nearly one that is read would be passed over in silence.
    void warn_of_likely_heading(const Cell& cell, const std::string& name) {
        const std::string near = nearest_name(name, {headings[metres], headings[feet], "tested_by"});
        if (near.empty()) return;
        add(Severity::warning, cell.offset, fmt::format("heading {} is not read", shown(name, 80)),
            "a heading of the test sheet", near);
    }

    void read_rows() {
        for (auto row = table_.next(); row; row = table_.next()) {
            if (!quotes_close()) return;
            if (row->size() > heading_row_.size()) {
                error((*row)[heading_row_.size()],
                      fmt::format("{} cells under {} headings", row->size(), heading_row_.size()),
                      "one cell a heading; numbers with a decimal point, or in quotes");
                continue;
            }
            rows_.push_back(std::move(*row));
        }
        if (rows_.empty() && !has_errors(result_.diagnostics))
            add(Severity::error, heading_row_.front().offset, "headings and no rows", "a row for each reading");
    }

    [[nodiscard]] const Cell* cell_of(const TableRow& row, Field field) const {
        const auto column = column_of_.find(field);
        if (column == column_of_.end() || column->second >= row.size()) return nullptr;
        return &row[column->second];
    }

    [[nodiscard]] std::string text_of(const TableRow& row, Field field) const {
        const Cell* cell = cell_of(row, field);
        return cell == nullptr ? "" : unguarded(std::string(drawn_map::trimmed(cell->text)));
    }

    /// Commas are decimal marks where no number of the file has a point.
    void settle_decimal_mark() {
        const Cell* first_comma = nullptr;
        bool any_point = false;
        for (const TableRow& row : rows_) {
            for (const Field field : {wavelength, loss, metres, feet}) {
                const Cell* cell = cell_of(row, field);
                if (cell == nullptr) continue;
                any_point = any_point || cell->text.find('.') != std::string::npos;
                if (first_comma == nullptr && is_decimal_comma(cell->text)) first_comma = cell;
            }
        }
        commas_ = first_comma != nullptr && !any_point;
        if (!commas_) return;
        add(Severity::warning, first_comma->offset, shown(first_comma->text, 40) + " with a decimal comma",
            "a decimal point; every comma in a number of this file is taken for one");
    }

    /// Digits, one comma, digits.
    static bool is_decimal_comma(std::string_view text) {
        const std::string_view number = drawn_map::trimmed(text);
        const std::size_t comma = number.find(',');
        return comma != std::string_view::npos && comma > 0 && comma + 1 < number.size() &&
               number.find_first_not_of("0123456789-,") == std::string_view::npos &&
               number.find(',', comma + 1) == std::string_view::npos;
    }

    /// What would be right in place of a number that is none.
    static std::string advice(const std::string& text, const std::string& wanted) {
        if (is_decimal_comma(text)) return wanted + " with a decimal point, as elsewhere in the file";
        const bool begins_with_digit = !text.empty() && text.front() >= '0' && text.front() <= '9';
        return begins_with_digit ? wanted + " alone: the heading has the unit" : wanted;
    }

    /// The number of a cell from `least` to `most`; nothing, and an error, where it is none.
    std::optional<double> number(const Cell& cell, double least, double most, const std::string& wanted) {
        std::string text(drawn_map::trimmed(cell.text));
        if (commas_ && is_decimal_comma(text)) std::ranges::replace(text, ',', '.');
        const std::optional<double> value = drawn_map::decimal_number(text);
        if (!value) {
            error(cell, shown(text, 40), advice(text, wanted));
            return std::nullopt;
        }
        if (*value < least || *value > most) {
            error(cell, shown(text, 40), fmt::format("{} from {} to {}", wanted, least, most));
            return std::nullopt;
        }
        return value;
    }

    std::optional<int> whole(const TableRow& row, Field field) {
        constexpr double most = 1e6;
        const Cell* cell = needed_cell(row, field);
        if (cell == nullptr) return std::nullopt;
        const auto value = number(*cell, 1, most, "a whole number");
        if (value && *value != std::floor(*value)) {
            error(*cell, shown(cell->text, 40), "a whole number");
            return std::nullopt;
        }
        return value ? std::optional(static_cast<int>(*value)) : std::nullopt;
    }

    /// The cell of a heading that a row with a reading has to have.
    const Cell* needed_cell(const TableRow& row, Field field) {
        const Cell* cell = cell_of(row, field);
        if (cell != nullptr && !drawn_map::trimmed(cell->text).empty()) return cell;
        error(cell == nullptr ? row.front() : *cell, fmt::format("a reading without '{}'", headings[field]),
              "which strand it is of, as on the test sheet");
        return nullptr;
    }

    void read_row(const TableRow& row) {
        const bool has_loss = !text_of(row, loss).empty();
        const bool has_length = !text_of(row, metres).empty() || !text_of(row, feet).empty();
        if (!has_loss && !has_length) return;
        Reading reading;
        reading.line = lines_.at(row.front().offset).line;
        reading.layout = text_of(row, layout);
        const auto link_number = whole(row, link);
        const auto leg = whole(row, strand);
        const Cell* wavelength_cell = needed_cell(row, wavelength);
        const auto nanometres =
            wavelength_cell == nullptr ? std::nullopt : number(*wavelength_cell, 1, 1e5, "a wavelength in nm");
        for (const Field field : {building, from})
            needed_cell(row, field);
        read_values(row, reading);
        if (!link_number || !leg || !nanometres) return;
        reading.key = {text_of(row, building), *link_number, *leg, text_of(row, from),
                       plan_file::thousandths(*nanometres)};
        reading.date = text_of(row, date);
        reading.tested_by = text_of(row, tested_by);
        note_first(row, reading);
        result_.readings.push_back(std::move(reading));
    }

    void read_values(const TableRow& row, Reading& reading) {
        if (const Cell* cell = cell_of(row, loss); cell != nullptr && !drawn_map::trimmed(cell->text).empty()) {
            if (const auto value = number(*cell, 0, most_loss_db, "a loss in dB, without a sign,"))
                reading.loss_mdb = plan_file::thousandths(*value);
        }
        for (const Field field : {metres, feet}) {
            const Cell* cell = cell_of(row, field);
            if (cell == nullptr || drawn_map::trimmed(cell->text).empty()) continue;
            const bool in_feet = field == feet;
            if (const auto value = number(*cell, 0, most_length, in_feet ? "a length in feet" : "a length in metres"))
                reading.length = in_feet ? Length::from_feet(*value) : Length::from_metres(*value);
        }
    }

    void note_first(const TableRow& row, const Reading& reading) {
        const auto [first, is_new] = first_line_.emplace(std::pair(reading.layout, reading.key), reading.line);
        if (is_new) return;
        error(row.front(), fmt::format("a second reading of what line {} has", first->second),
              "one reading each: the one that counts");
    }

    std::string file_;
    drawn_map::LineIndex lines_;
    drawn_map::TableReader table_;
    ReadReadings result_;
    TableRow heading_row_;
    std::vector<TableRow> rows_;
    std::map<Field, std::size_t> column_of_;
    std::vector<std::string> unknown_;
    std::map<std::pair<std::string, plan_file::ReadingKey>, int> first_line_;
    bool commas_ = false;
};

ReadReadings refused(const std::string& file, const std::string& found, const std::string& wanted) {
    ReadReadings read;
    read.diagnostics.push_back({{file, 0, 0}, Severity::error, found, wanted, {}});
    return read;
}

}  // namespace

ReadReadings read_readings(const std::string& file, std::string_view bytes) {
    if (bytes.size() > largest_file_bytes) return refused(file, "more than 64 MiB", "a smaller file");
    drawn_map::Utf8Text text;
    if (!drawn_map::read_as_utf8(bytes, true, text)) return refused(file, text.problem, text.wanted);
    return Reader(file, text.text).run();
}

}  // namespace spadework::acceptance
