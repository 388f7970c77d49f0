#pragma once

// Site files for tests: from disk, or made up on the spot.

#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>

#include "site_file/site_file.hpp"

namespace spadework::site_file::testing {

inline std::string text_of_file(const std::filesystem::path& path) {
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

/// A loader that reads files in a folder.
inline FileLoader loader_in(const std::filesystem::path& folder) {
    return [folder](const std::string& path) -> LoadedText {
        if (!std::filesystem::is_regular_file(folder / path)) return {std::nullopt, "no such file"};
        return {text_of_file(folder / path), {}};
    };
}

/// A loader that knows only these files.
inline FileLoader loader_of(std::map<std::string, std::string> files) {
    return [files = std::move(files)](const std::string& path) -> LoadedText {
        const auto found = files.find(path);
        if (found == files.end()) return {std::nullopt, "no such file"};
        return {found->second, {}};
    };
}

inline LoadedSite read_text(const std::string& text, std::map<std::string, std::string> files = {}) {
    return read_site({"site.yaml", text}, loader_of(std::move(files)));
}

/// All diagnostics, one a line.
inline std::string said(const LoadedSite& site) {
    std::string text;
    for (const Diagnostic& diagnostic : site.diagnostics)
        text += to_text(diagnostic) + "\n";
    return text;
}

inline std::filesystem::path scenarios_folder() {
    return std::filesystem::path(SPADEWORK_SOURCE_DIR) / "scenarios";
}

inline std::filesystem::path shared_data_folder() {
    return std::filesystem::path(SPADEWORK_SHARED_DIR) / "data";
}

/// A text with one passage, which must be there, put in place of another.
inline std::string with(std::string text, const std::string& passage, const std::string& replacement) {
    const std::size_t at = text.find(passage);
    if (at == std::string::npos) throw std::runtime_error("the text has no '" + passage + "'");
    return text.replace(at, passage.size(), replacement);
}

/// The sections of a small site that have nothing to do with its map.
inline std::string prices_text() {
    return R"(catalogue:
  cables:
    - {id: cable-12, strands: 12, price: 1.30, end: 74, step: 10, longest: 1000, diameter: 0.009}
  optics:
    - {id: lx10, standard: 1000BASE-LX10, price: 19}
  building-gear:
    - {id: switch, kind: poe-switch, optic-ports: 2, copper-ports: 8, fastest-rate: 1G, price: 260, install-hours: 1}
  hub-gear:
    - {id: core, optic-ports: 8, fastest-rate: 10G, price: 480, install-hours: 1.5}
  patch-cords:
    - {id: cord, strands: 2, price: 9}
  splicing: {pigtail: 6, hours-per-splice: 0.25, set-up-hours: 1.0, rate: 75}
labour: {groundworks-rate: 62, installer-rate: 48}
)";
}

/// A small valid site: hub h, junction j, buildings a and b.
inline std::string small_site() {
    return R"(format: 1
site: Small
currency: EUR
map:
  places:
    - {id: h, at: [0, 0]}
    - {id: j, at: [30, 40]}
    - {id: a, at: [30, 90]}
    - {id: b, at: [90, 40]}
  segments:
    - {id: h-j, from: h, to: j, ground: grass}
    - {id: j-a, from: j, to: a, ground: grass, via: [[20, 65]]}
    - {id: j-b, from: j, to: b, ground: grass, length: 61.5}
grounds:
  grass: {methods: [{id: open cut, kind: open-cut, labour: 0.2, plant: 4, depth: 0.6}]}
hub: {place: h}
buildings:
  - {id: a, links: [{rate: 1G}]}
  - {id: b, links: [{rate: 1G, count: 2}]}
)" + prices_text();
}

/// A site whose map is the GeoJSON file "map.geojson"; `more` goes into the section map.geojson.
inline std::string geojson_site(const std::string& hub, const std::string& more) {
    return R"(format: 1
site: From GeoJSON
currency: EUR
map:
  geojson:
    file: map.geojson
    grounds: {default: grass}
)" + more + R"(
grounds:
  asphalt: {methods: [{id: open cut, kind: open-cut, labour: 0.5, plant: 9, depth: 0.8}]}
  grass: {methods: [{id: open cut, kind: open-cut, labour: 0.2, plant: 4, depth: 0.6}]}
hub: )" + hub +
           "\n" + prices_text();
}

}  // namespace spadework::site_file::testing
