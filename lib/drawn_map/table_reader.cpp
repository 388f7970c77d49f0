#include "drawn_map/table_reader.hpp"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "diagnostics/nearest_name.hpp"
#include "drawn_map/plain_text.hpp"
#include "drawn_map/table.hpp"

namespace spadework::drawn_map {

namespace {

using Names = std::vector<std::string_view>;
constexpr std::size_t no_column = static_cast<std::size_t>(-1);

/// Names that columns go by in exports and spreadsheets; English, German, French, Spanish, Italian, Dutch, Portuguese,
/// Polish. Earlier ones win.
struct ColumnNames {
    Names longitude = {"lon",     "lng",     "long",       "longitude", "längengrad",  "laengengrad",
                       "länge",   "laenge",  "geo. länge", "longitud",  "longitudine", "lengtegraad",
                       "długość", "dlugosc", "gps_lon",    "lon_wgs84"};
    Names latitude = {"lat",        "latitude",     "breitengrad", "breite",    "geo. breite", "latitud",
                      "latitudine", "breedtegraad", "szerokość",   "szerokosc", "gps_lat",     "lat_wgs84"};
    Names east = {"x", "east", "easting", "rechtswert", "ostwert", "e", "este", "est", "coord_x", "x_coord", "xcoord"};
    Names north = {"y",     "north", "northing", "hochwert", "nordwert", "n",
                   "norte", "nord",  "coord_y",  "y_coord",  "ycoord"};
    Names name = {"name",   "building name", "title",    "bezeichnung", "gebäude", "gebaeude",
                  "objekt", "nom",           "bâtiment", "batiment",    "nombre",  "edificio",
                  "nome",   "naam",          "gebouw",   "nazwa",       "budynek", "label"};
    Names id = {"id", "@id", "nr", "nr.", "no", "no.", "number", "nummer", "code", "ref", "fid", "kennung"};
};

struct Columns {
    std::size_t x = no_column;
    std::size_t y = no_column;
    std::size_t name = no_column;
    std::size_t id = no_column;
};

class PlacesReader {
public:
    PlacesReader(std::string_view text, const ReadingOptions& options, MapBuilder& map)
        : options_(options), map_(map), table_(text) {}

    void read() {
        auto header = table_.next();
        if (!header) return map_.error(0, "a table without rows", header_wanted());
        header_ = std::move(*header);
        if (!all_quotes_close() || !find_columns()) return;
        for (auto row = table_.next(); row && all_quotes_close(); row = table_.next())
            read_row(*row);
    }

private:
    bool all_quotes_close() {
        if (table_.unclosed_quote() == std::string_view::npos) return true;
        map_.error(table_.unclosed_quote(), "a quote that nothing closes", "a second \" at the end of the cell");
        return false;
    }

    [[nodiscard]] std::string header_wanted() const {
        return options_.coordinates == CoordinateSystem::plane_metres
                   ? "a first line that names the columns, such as name;x;y"
                   : "a first line that names the columns, such as name;lat;lon";
    }

    [[nodiscard]] std::size_t column_named(std::string_view name) const {
        const std::string wanted = small_letters(trimmed(name));
        const auto found = std::ranges::find_if(
            header_, [&](const Cell& cell) { return small_letters(trimmed(cell.text)) == wanted; });
        return found == header_.end() ? no_column : static_cast<std::size_t>(found - header_.begin());
    }

    [[nodiscard]] std::size_t first_of(const Names& names) const {
        for (const std::string_view name : names) {
            if (const std::size_t column = column_named(name); column != no_column) return column;
        }
        return no_column;
    }

    /// The column that the options name; else the first that goes by one of the names.
    std::size_t column_for(const std::string& option, const Names& names) {
        if (option.empty()) return first_of(names);
        const std::size_t column = column_named(option);
        if (column == no_column) {
            std::vector<std::string> known;
            for (const Cell& cell : header_)
                known.emplace_back(trimmed(cell.text));
            const std::string nearest = nearest_name(option, known);
            map_.error(header_.front().offset, "no column " + shown(option),
                       "one of " + columns_there() + (nearest.empty() ? "" : "; did you mean " + shown(nearest) + "?"));
        }
        return column;
    }

    [[nodiscard]] std::string columns_there() const {
        std::string list;
        for (const Cell& cell : header_) {
            if (list.size() > 300) return list + ", …";
            list += (list.empty() ? "" : ", ") + shown(cell.text);
        }
        return list;
    }

    bool find_columns() {
        const ColumnNames known;
        const bool failed_before = map_.failed();
        const bool plane = options_.coordinates == CoordinateSystem::plane_metres || !options_.reference_system.empty();
        // Degrees before metres, or the other way round; never one of each.
        const Names& first_x = plane ? known.east : known.longitude;
        const Names& first_y = plane ? known.north : known.latitude;
        const bool first = first_of(first_x) != no_column || first_of(first_y) != no_column;
        columns_.x = column_for(options_.columns.x, first ? first_x : plane ? known.longitude : known.east);
        columns_.y = column_for(options_.columns.y, first ? first_y : plane ? known.latitude : known.north);
        columns_.name = column_for(options_.columns.name, known.name);
        columns_.id = column_for(options_.columns.id, known.id);
        if (map_.failed() && !failed_before) return false;
        if (columns_.x != no_column && columns_.y != no_column) return true;
        tell_of_missing_columns();
        return false;
    }

    void tell_of_missing_columns() {
        const auto is_number = [](const Cell& cell) { return number_of(cell).has_value(); };
        if (std::ranges::count_if(header_, is_number) >= 2) {
            map_.error(header_.front().offset, "a table whose first line holds numbers", header_wanted());
            return;
        }
        const char* missing = columns_.x != no_column   ? "latitude"
                              : columns_.y != no_column ? "longitude"
                                                        : "longitude and latitude";
        map_.error(header_.front().offset, fmt::format("no column for {} among {}", missing, columns_there()),
                   header_wanted() + "; or options that say which columns they are");
    }

    /// A comma in a cell can only be a decimal comma: it neither separates cells nor thousands.
    [[nodiscard]] static std::optional<double> number_of(const Cell& cell) {
        std::string text(trimmed(cell.text));
        if (std::ranges::count(text, ',') == 1 && text.find('.') == std::string::npos)
            std::ranges::replace(text, ',', '.');
        return decimal_number(text);
    }

    void read_row(const TableRow& row) {
        const auto is_extra = [&](const Cell& cell) { return !trimmed(cell.text).empty(); };
        const std::size_t width = header_.size();
        if (row.size() > width &&
            std::ranges::any_of(row.begin() + static_cast<std::ptrdiff_t>(width), row.end(), is_extra)) {
            map_.error(row[width].offset, fmt::format("a row of {} cells", row.size()),
                       fmt::format("{}, as in the first line; a cell that holds {} needs quotes around it", width,
                                   shown(std::string(1, table_.separator()))));
            return;
        }
        const Cell nothing{{}, row.front().offset};
        const Cell& x = columns_.x < row.size() ? row[columns_.x] : nothing;
        const Cell& y = columns_.y < row.size() ? row[columns_.y] : nothing;
        if (trimmed(x.text).empty() && trimmed(y.text).empty()) {
            map_.leave_out("rows without a place");
            map_.warning(row.front().offset, "a row without a place; it is left out",
                         "a number in both of its columns");
            return;
        }
        const auto east = coordinate(x, columns_.x);
        const auto north = coordinate(y, columns_.y);
        if (!east || !north) return;
        const Position at{*east, *north};
        map_.see(at, x.offset);
        map_.add_point(facts_of(row), at);
    }

    std::optional<double> coordinate(const Cell& cell, std::size_t column) {
        const auto number = number_of(cell);
        if (!number) {
            map_.error(cell.offset,
                       fmt::format("{} in column {}", trimmed(cell.text).empty() ? "nothing" : shown(cell.text),
                                   shown(header_[column].text)),
                       "a decimal number, such as 48.137 or 48,137");
        }
        return number;
    }

    FeatureFacts facts_of(const TableRow& row) const {
        FeatureFacts facts;
        facts.offset = row.front().offset;
        for (std::size_t i = 0; i < std::min(row.size(), header_.size()); ++i) {
            if (i == columns_.x || i == columns_.y) continue;
            if (i == columns_.name) {
                facts.name = row[i].text;
            } else if (i == columns_.id) {
                facts.id = row[i].text;
            } else if (!trimmed(row[i].text).empty()) {
                facts.tags.push_back({header_[i].text, row[i].text});
            }
        }
        return facts;
    }

    const ReadingOptions& options_;
    MapBuilder& map_;
    TableReader table_;
    TableRow header_;
    Columns columns_;
};

}  // namespace

void read_table_of_places(std::string_view text, const ReadingOptions& options, MapBuilder& map) {
    PlacesReader(text, options, map).read();
}

}  // namespace spadework::drawn_map
