#include "drawn_map/coordinate_systems.hpp"

#include <algorithm>

#include "drawn_map/plain_text.hpp"

namespace spadework::drawn_map {

namespace {

/// A word that a shell takes as it is: in single quotes where it has anything but plain characters.
std::string for_shell(const std::string& word) {
    const bool plain = !word.empty() && word.find_first_not_of(
                                            "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
                                            "0123456789_./:+-") == std::string::npos;
    if (plain) return word;
    std::string quoted = "'";
    for (const char c : word)
        quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return quoted + "'";
}

/// "maps/park-wgs84" for "maps/park.gpkg".
std::string name_beside(const std::string& file) {
    const std::size_t folder = file.find_last_of('/');
    const std::size_t dot = file.find_last_of('.');
    const bool has_ending = dot != std::string::npos && (folder == std::string::npos || dot > folder + 1) && dot > 0;
    return (has_ending ? file.substr(0, dot) : file) + "-wgs84";
}

}  // namespace

std::string short_system_name(std::string_view name) {
    const std::string small = small_letters(trimmed(name));
    const std::size_t code = small.find_last_not_of("0123456789") + 1;  // npos + 1 is 0.
    if (small.find("epsg") == std::string::npos || code >= small.size()) return std::string(trimmed(name));
    return "EPSG:" + small.substr(code);
}

bool is_wgs84(std::string_view name) {
    const std::string plain = small_letters(short_system_name(name));
    return plain == "epsg:4326" || plain.ends_with("crs84") || plain == "wgs84" || plain == "wgs 84";
}

std::string conversion_command(const std::string& file, const std::string& system, bool layers) {
    std::string command = layers ? "ogr2ogr -f LIBKML -t_srs EPSG:4326" : "ogr2ogr -t_srs EPSG:4326";
    if (!system.empty()) command += " -s_srs " + for_shell(system);
    // A name that begins with a dash would be an option.
    const std::string path = (file.starts_with('-') ? "./" : "") + file;
    const std::string from = (small_letters(path).ends_with(".zip") ? "/vsizip/" : "") + path;
    return command + " " + for_shell(name_beside(path) + (layers ? ".kml" : ".geojson")) + " " + for_shell(from);
}

std::string conversion_advice(const std::string& file, const std::string& system, bool layers) {
    return "longitude and latitude on WGS 84; this build has no GDAL to convert it with, so run: " +
           conversion_command(file, system, layers);
}

#ifndef SPADEWORK_WITH_GDAL
std::string turn_into_wgs84(std::vector<Feature>& /*features*/, const std::string& /*system*/) {
    return "this build has no GDAL";
}

bool has_gdal() {
    return false;
}
#endif

}  // namespace spadework::drawn_map
