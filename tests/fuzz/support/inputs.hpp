#pragma once

// What each fuzz target does with one input: it reads the bytes, and ends the program where what comes out is not what
// the reader promises. Crashes, sanitizers' finds and endless loops show by themselves.

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace spadework::fuzz {

void try_geojson(std::string_view bytes);
void try_kml(std::string_view bytes);
/// The bytes as an archive, and the bytes as the map within one.
void try_kmz(std::string_view bytes);
void try_gpx(std::string_view bytes);
void try_osm(std::string_view bytes);
void try_csv(std::string_view bytes);
/// The bytes as a site file, or as the GeoJSON map of one where they begin with '{'.
void try_site_file(std::string_view bytes);
/// The bytes as a certificate of the shipped lakeside scenario, read and verified.
void try_certificate(std::string_view bytes);
/// The bytes as a plan file, written again, and looked for on the shipped lakeside scenario.
void try_plan_file(std::string_view bytes);

/// The bytes as a part of a risk study, put together and reported where it is the whole.
void try_doubt(std::string_view bytes);

/// The bytes as readings for a plan of the shipped lakeside scenario, judged and reported.
void try_acceptance(std::string_view bytes);

/// A target by the name of its folder of inputs.
struct Target {
    std::string name;
    std::function<void(std::string_view)> take;
};

/// All of them, by name.
const std::vector<Target>& targets();

}  // namespace spadework::fuzz
