#include "drawn_map/map_format.hpp"

#include <algorithm>

#include "drawn_map/plain_text.hpp"

namespace spadework::drawn_map {

namespace {

constexpr auto npos = std::string_view::npos;

/// A format told by bytes at a fixed place.
struct Signature {
    std::size_t offset;
    std::string_view bytes;
    MapKind kind;
    const char* name;
    const char* wanted;
};

using namespace std::string_view_literals;

constexpr const char* as_map = "a map as GeoJSON, KML, KMZ, GPX, OSM XML or CSV";
constexpr Signature signatures[] = {
    {0, "SQLite format 3\0"sv, MapKind::by_gdal, "a GeoPackage", ""},
    {0, "PK\x03\x04"sv, MapKind::archive, "a zip archive", ""},
    {0, "PK\x05\x06"sv, MapKind::refused, "an empty zip archive", as_map},
    {0, "\x00\x00\x27\x0A"sv, MapKind::by_gdal, "a Shapefile", ""},
    {0, "AutoCAD Binary DXF"sv, MapKind::by_gdal, "a DXF drawing", ""},
    {0, "AC10"sv, MapKind::refused, "a DWG drawing", "the drawing saved as DXF, or a map as GeoJSON or KML"},
    {0, "\x1F\x8B"sv, MapKind::refused, "a file packed with gzip", "the file unpacked, by gunzip"},
    {0, "7z\xBC\xAF\x27\x1C"sv, MapKind::refused, "a 7z archive", "the file unpacked"},
    {0, "Rar!"sv, MapKind::refused, "a RAR archive", "the file unpacked"},
    {4, "\x0A\x09OSMHeader"sv, MapKind::refused, "an OSM PBF file", "the same map as OSM XML or GeoJSON"},
    {0, "%PDF"sv, MapKind::refused, "a PDF document", as_map},
    {0, "\x89PNG"sv, MapKind::refused, "a picture", as_map},
    {0, "\xFF\xD8\xFF"sv, MapKind::refused, "a picture", as_map},
    {0, "GIF8"sv, MapKind::refused, "a picture", as_map},
    {0, "II*\0"sv, MapKind::refused, "a picture", as_map},
    {0, "MM\0*"sv, MapKind::refused, "a picture", as_map},
    {0, "\xD0\xCF\x11\xE0"sv, MapKind::refused, "an old spreadsheet or document", "the table saved as CSV"},
};

bool ends_with_any(const std::string& file, std::initializer_list<std::string_view> endings) {
    const std::string small = small_letters(file);
    return std::ranges::any_of(endings, [&](std::string_view ending) { return small.ends_with(ending); });
}

/// The text behind a piece of XML that opens with `open` and ends with `close`.
std::string_view behind(std::string_view xml, std::string_view close) {
    const std::size_t end = xml.find(close);
    return end == npos ? std::string_view() : xml.substr(end + close.size());
}

/// A document type may hold declarations in [ ].
std::string_view behind_doctype(std::string_view xml) {
    const std::size_t end = xml.find_first_of("[>");
    if (end == npos) return {};
    return xml[end] == '>' ? xml.substr(end + 1) : behind(behind(xml, "]"), ">");
}

MapFormat format_of_xml(const std::string& file, std::string_view text) {
    const std::string_view root = root_element(text);
    const auto is = [&](std::initializer_list<std::string_view> names) {
        return std::ranges::find(names, root) != names.end();
    };
    if (is({"kml", "Document", "Folder", "Placemark", "NetworkLink"})) return {MapKind::kml, "KML", ""};
    if (is({"gpx"})) return {MapKind::gpx, "GPX", ""};
    if (is({"osm"})) return {MapKind::osm_xml, "OSM XML", ""};
    if (is({"osmChange"})) return {MapKind::refused, "a list of changes to OpenStreetMap", "a map as OSM XML"};
    if (is({"html", "HTML"}) || small_letters(text.substr(0, 200)).find("<!doctype html") != npos)
        return {MapKind::refused, "a web page", as_map};
    if (is({"svg"})) return {MapKind::refused, "an SVG picture", as_map};
    if (ends_with_any(file, {".kml"})) return {MapKind::kml, "KML", ""};
    if (ends_with_any(file, {".gpx"})) return {MapKind::gpx, "GPX", ""};
    if (ends_with_any(file, {".osm"})) return {MapKind::osm_xml, "OSM XML", ""};
    const std::string what = root.empty() ? "XML without an element" : "XML whose first element is " + shown(root);
    return {MapKind::refused, what, as_map};
}

/// A DXF drawing is pairs of lines: a code and its value. It begins with section 0 or a comment, 999.
bool is_dxf(std::string_view text) {
    const std::size_t end = text.find('\n');
    if (end == npos) return false;
    const std::string_view code = trimmed(text.substr(0, end));
    const std::string_view rest = text.substr(end + 1);
    return (code == "0" && trimmed(rest.substr(0, rest.find('\n'))) == "SECTION") ||
           (code == "999" && rest.substr(0, 100'000).find("SECTION") != npos);
}

}  // namespace

std::string_view root_element(std::string_view xml) {
    for (;;) {
        const std::size_t open = xml.find_first_not_of(" \t\r\n");
        if (open == npos || xml[open] != '<') return {};
        xml.remove_prefix(open);
        if (xml.starts_with("<?")) {
            xml = behind(xml, "?>");
        } else if (xml.starts_with("<!--")) {
            xml = behind(xml, "-->");
        } else if (xml.starts_with("<!")) {
            xml = behind_doctype(xml);
        } else {
            break;
        }
    }
    xml = xml.substr(1, xml.find_first_of(" \t\r\n/>", 1) - 1);
    const std::size_t prefix = xml.find(':');
    return prefix == npos ? xml : xml.substr(prefix + 1);
}

MapFormat format_of_bytes(const std::string& file, std::string_view bytes) {
    if (ends_with_any(file, {".dbf", ".shx", ".prj", ".cpg"}))
        return {MapKind::refused, "a part of a Shapefile", "its .shp file, or a zip archive of all its files"};
    for (const Signature& signature : signatures) {
        if (bytes.size() < signature.offset) continue;
        if (bytes.substr(signature.offset).starts_with(signature.bytes))
            return {signature.kind, signature.name, signature.wanted};
    }
    return {MapKind::table, "CSV", ""};
}

MapFormat format_of_text(const std::string& file, std::string_view text) {
    const std::string_view begin = text.substr(std::min(text.find_first_not_of(" \t\r\n"), text.size()));
    if (begin.empty()) return {MapKind::refused, "an empty file", as_map};
    if (begin.front() == '{' || begin.front() == '[' || begin.front() == '\x1E')
        return {MapKind::geojson, "GeoJSON", ""};
    if (begin.front() == '<') return format_of_xml(file, begin);
    if (is_dxf(begin)) return {MapKind::by_gdal, "a DXF drawing", ""};
    if (ends_with_any(file, {".json", ".geojson", ".geojsonl", ".geojsons"})) return {MapKind::geojson, "GeoJSON", ""};
    if (ends_with_any(file, {".kml"})) return {MapKind::kml, "KML", ""};
    if (ends_with_any(file, {".gpx"})) return {MapKind::gpx, "GPX", ""};
    if (ends_with_any(file, {".osm"})) return {MapKind::osm_xml, "OSM XML", ""};
    const std::string_view first_line = begin.substr(0, begin.find_first_of("\r\n"));
    if (ends_with_any(file, {".csv", ".tsv", ".txt"}) || first_line.find_first_of(",;\t|") != npos)
        return {MapKind::table, "CSV", ""};
    return {MapKind::refused, "a text of no known format", as_map};
}

MapFormat format_of_archive(const std::vector<std::string>& entries) {
    const auto any = [&](std::initializer_list<std::string_view> endings) {
        return std::ranges::any_of(entries, [&](const std::string& entry) { return ends_with_any(entry, endings); });
    };
    if (any({".kml"})) return {MapKind::kml, "KMZ", ""};
    if (any({".shp"})) return {MapKind::by_gdal, "a zipped Shapefile", ""};
    if (any({"xl/workbook.xml", "content.xml"}))
        return {MapKind::refused, "a spreadsheet or document", "the table saved as CSV"};
    if (any({".geojson", ".json", ".gpx", ".osm", ".csv", ".gpkg", ".dxf"}))
        return {MapKind::refused, "a zip archive", "the map in it, unpacked"};
    return {MapKind::refused, "a zip archive without a map in it", as_map};
}

}  // namespace spadework::drawn_map
