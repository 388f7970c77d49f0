#include "fuzz/support/inputs.hpp"

namespace spadework::fuzz {

const std::vector<Target>& targets() {
    static const std::vector<Target> list = {{"acceptance", try_acceptance},
                                             {"certificate", try_certificate},
                                             {"csv", try_csv},
                                             {"doubt", try_doubt},
                                             {"geojson", try_geojson},
                                             {"gpx", try_gpx},
                                             {"kml", try_kml},
                                             {"kmz", try_kmz},
                                             {"osm", try_osm},
                                             {"plan_file", try_plan_file},
                                             {"site_file", try_site_file}};
    return list;
}

}  // namespace spadework::fuzz
