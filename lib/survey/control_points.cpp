// Control points from a CSV text.

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "site_file/document.hpp"
#include "site_file/parsing.hpp"
#include "survey/plan_fit.hpp"

namespace spadework::survey {

namespace {

struct Cell {
    std::string_view text;
    int column = 1;
};

std::string_view trimmed(std::string_view text) {
    const auto is_blank = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '"'; };
    while (!text.empty() && is_blank(text.front()))
        text.remove_prefix(1);
    while (!text.empty() && is_blank(text.back()))
        text.remove_suffix(1);
    return text;
}

/// What stands between the cells of the text: semicolons or tabs where there are any, else commas.
char separator_of(std::string_view text) {
    if (text.find(';') != std::string_view::npos) return ';';
    if (text.find('\t') != std::string_view::npos) return '\t';
    return ',';
}

std::vector<Cell> cells_of(std::string_view line, char separator) {
    std::vector<Cell> cells;
    std::size_t begin = 0;
    while (begin <= line.size()) {
        const std::size_t end = std::min(line.find(separator, begin), line.size());
        cells.push_back({trimmed(line.substr(begin, end - begin)), static_cast<int>(begin) + 1});
        begin = end + 1;
    }
    return cells;
}

/// A number with a decimal point, or a decimal comma where cells are not separated by commas.
std::optional<double> number_of(std::string_view text, char separator) {
    std::string plain(text);
    if (separator != ',') std::replace(plain.begin(), plain.end(), ',', '.');
    double number = 0;
    const auto read = std::from_chars(plain.data(), plain.data() + plain.size(), number);
    const bool whole = !plain.empty() && read.ec == std::errc{} && read.ptr == plain.data() + plain.size();
    if (!whole || !std::isfinite(number)) return std::nullopt;
    return number;
}

class ControlPointReader {
public:
    ControlPointReader(const site_file::SourceText& source, Diagnostics& diagnostics)
        : source_(source), diagnostics_(diagnostics), separator_(separator_of(source.text)) {}

    std::vector<ControlPoint> read() {
        std::string_view text = source_.text;
        if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
        std::vector<ControlPoint> points;
        for (int number = 1; !text.empty(); ++number) {
            const std::size_t end = std::min(text.find('\n'), text.size());
            read_line(text.substr(0, end), number, points);
            text.remove_prefix(std::min(end + 1, text.size()));
        }
        return points;
    }

private:
    void read_line(std::string_view line, int number, std::vector<ControlPoint>& points) {
        if (trimmed(line).empty() || trimmed(line).front() == '#') return;
        const std::vector<Cell> cells = cells_of(line, separator_);
        const bool is_first = !std::exchange(began_, true);
        const bool heads = std::none_of(cells.begin(), cells.end(), [this](const Cell& cell) {
            return number_of(cell.text, separator_).has_value();
        });
        if (is_first && heads) return;
        if (cells.size() != 4) {
            error(number, 1, fmt::format("{} values in a line", cells.size()), "four: x, y, longitude, latitude");
            return;
        }
        constexpr std::array<double, 4> most = {1e7, 1e7, 180, 90};
        constexpr std::array<const char*, 4> wanted = {
            "x in metres", "y in metres", "a longitude of -180 to 180 degrees", "a latitude of -90 to 90 degrees"};
        std::array<double, 4> values{};
        bool good = true;
        for (std::size_t i = 0; i < 4; ++i) {
            const auto value = number_of(cells[i].text, separator_);
            if (!value || std::abs(*value) > most[i]) {
                error(number, cells[i].column, site_file::quoted(cells[i].text), wanted[i]);
                good = false;
            } else {
                values[i] = *value;
            }
        }
        if (good) points.push_back({{values[0], values[1]}, {values[2], values[3]}, {source_.file, number, 1}});
    }

    void error(int line, int column, std::string found, std::string wanted) {
        diagnostics_.push_back(
            {{source_.file, line, column}, Severity::error, std::move(found), std::move(wanted), ""});
    }

    const site_file::SourceText& source_;
    Diagnostics& diagnostics_;
    char separator_;
    bool began_ = false;
};

}  // namespace

std::optional<std::vector<ControlPoint>> read_control_points(const site_file::SourceText& source,
                                                             Diagnostics& diagnostics) {
    Diagnostics problems;
    std::vector<ControlPoint> points;
    if (site_file::is_readable(source, problems)) points = ControlPointReader(source, problems).read();
    diagnostics.insert(diagnostics.end(), problems.begin(), problems.end());
    if (has_errors(problems)) return std::nullopt;
    return points;
}

}  // namespace spadework::survey
