#include "drawn_map/reading.hpp"

#include "drawn_map/geojson_reader.hpp"
#include "drawn_map/map_builder.hpp"

namespace spadework::drawn_map {

std::optional<DrawnMap> read_drawn_map(const std::string& name, std::string_view bytes, const ReadingOptions& options,
                                       Diagnostics& diagnostics) {
    MapBuilder map(name, "GeoJSON", options, diagnostics);
    map.start_text(name, bytes);
    read_geojson(bytes, map);
    return map.finish();
}

}  // namespace spadework::drawn_map
