#include "fuzz/support/inputs.hpp"
#include "fuzz/support/promises.hpp"

namespace spadework::fuzz {

void try_geojson(std::string_view bytes) {
    read_both_ways("map.geojson", bytes);
}

void try_kml(std::string_view bytes) {
    read_both_ways("map.kml", bytes);
}

void try_kmz(std::string_view bytes) {
    read_both_ways("map.kmz", bytes);
    read_both_ways("map.kmz", archive_around(bytes));
}

void try_gpx(std::string_view bytes) {
    read_both_ways("map.gpx", bytes);
}

void try_osm(std::string_view bytes) {
    read_both_ways("map.osm", bytes);
}

void try_csv(std::string_view bytes) {
    read_both_ways("map.csv", bytes);
}

}  // namespace spadework::fuzz
