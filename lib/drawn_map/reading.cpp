#include "drawn_map/reading.hpp"

#include <fmt/format.h>

#include "drawn_map/coordinate_systems.hpp"
#include "drawn_map/gdal_reader.hpp"
#include "drawn_map/geojson_reader.hpp"
#include "drawn_map/gpx_reader.hpp"
#include "drawn_map/kml_reader.hpp"
#include "drawn_map/kmz_reader.hpp"
#include "drawn_map/map_builder.hpp"
#include "drawn_map/map_format.hpp"
#include "drawn_map/osm_reader.hpp"
#include "drawn_map/table_reader.hpp"
#include "drawn_map/text_encoding.hpp"

namespace spadework::drawn_map {

namespace {

/// Lines and offsets of all readers are counted in 32 bits.
constexpr std::size_t largest_file_bytes = 500'000'000;

/// One file on its way to a map.
struct Request {
    const std::string& name;
    std::string_view bytes;
    const ReadingOptions& options;
    Diagnostics& diagnostics;

    std::optional<DrawnMap> refuse(std::string found, std::string wanted) const {
        diagnostics.push_back({{name, 0, 0}, Severity::error, std::move(found), std::move(wanted), {}});
        return std::nullopt;
    }
};

std::optional<DrawnMap> read_by_gdal(const Request& file, const std::string& format) {
    if (has_gdal()) {
        MapBuilder map(file.name, format, file.options, file.diagnostics);
        read_with_gdal(format, file.bytes, file.options, map);
        return map.finish();
    }
    // A drawing does not say what its coordinates are in.
    const std::string unknown = format.find("DXF") == std::string::npos ? "" : "EPSG:NUMBER";
    const std::string& known = file.options.reference_system;
    return file.refuse(format, conversion_advice(file.name, known.empty() ? unknown : known, true));
}

std::optional<DrawnMap> read_archive(const Request& file) {
    ZipArchive archive(file.bytes);
    if (!archive.problem().empty()) return file.refuse(archive.problem(), "a whole zip archive");
    const MapFormat format = format_of_archive(archive.entries());
    if (format.kind == MapKind::by_gdal) return read_by_gdal(file, format.name);
    if (format.kind == MapKind::refused) return file.refuse(format.name, format.wanted);
    MapBuilder map(file.name, format.name, file.options, file.diagnostics);
    map.always_degrees();
    read_kmz(file.name, archive, map);
    return map.finish();
}

void read_text(const MapFormat& format, std::string_view text, const ReadingOptions& options, MapBuilder& map) {
    switch (format.kind) {
        case MapKind::geojson:
            return read_geojson(text, map);
        case MapKind::kml:
            map.always_degrees();
            return read_kml(
                text, [](const std::string& /*address*/) { return false; }, map);
        case MapKind::gpx:
            map.always_degrees();
            return read_gpx(text, map);
        case MapKind::osm_xml:
            map.always_degrees();
            return read_osm_xml(text, map);
        default:
            return read_table_of_places(text, options, map);
    }
}

std::optional<DrawnMap> read_as_text(const Request& file) {
    Utf8Text text;
    const bool may_guess = file.bytes.find_first_of("{<") != file.bytes.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
    const bool readable = read_as_utf8(file.bytes, may_guess, text);
    if (!readable) {
        MapBuilder map(file.name, "", file.options, file.diagnostics);
        map.start_text(file.name, text.text);
        map.error(text.offset, text.problem, text.wanted);
        return map.finish();
    }
    const MapFormat format = format_of_text(file.name, text.text);
    if (format.kind == MapKind::by_gdal) return read_by_gdal(file, format.name);
    if (format.kind == MapKind::refused) return file.refuse(format.name, format.wanted);
    MapBuilder map(file.name, format.name, file.options, file.diagnostics);
    map.start_text(file.name, text.text);
    if (text.encoding == "Windows-1252" && may_guess) {
        map.warning(0, "a text that is not UTF-8; it is read as Windows-1252",
                    "UTF-8, if letters in names come out wrong");
    }
    read_text(format, text.text, file.options, map);
    return map.finish();
}

}  // namespace

std::optional<DrawnMap> read_drawn_map(const std::string& name, std::string_view bytes, const ReadingOptions& options,
                                       Diagnostics& diagnostics) {
    const Request file{name, bytes, options, diagnostics};
    if (bytes.size() > largest_file_bytes) {
        return file.refuse(fmt::format("a file of {} bytes", bytes.size()),
                           fmt::format("at most {} bytes", largest_file_bytes));
    }
    const MapFormat format = format_of_bytes(name, bytes);
    if (format.kind == MapKind::refused) return file.refuse(format.name, format.wanted);
    if (format.kind == MapKind::archive) return read_archive(file);
    if (format.kind == MapKind::by_gdal) return read_by_gdal(file, format.name);
    return read_as_text(file);
}

}  // namespace spadework::drawn_map
