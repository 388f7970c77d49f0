#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "drawn_map/map_builder.hpp"
#include "drawn_map/osm_rings.hpp"

namespace pugi {
class xml_node;
}

namespace spadework::drawn_map {

struct OsmWay {
    std::int64_t id = 0;
    NodeIds nodes;
    FeatureFacts facts;
};

struct OsmMember {
    std::int64_t way = 0;
    bool inner = false;
};

/// A relation of type multipolygon.
struct OsmMultipolygon {
    std::vector<OsmMember> ways;
    FeatureFacts facts;  ///< Without the tag "type".
};

/// What an OSM file holds, each kind in its order.
struct OsmElements {
    std::unordered_map<std::int64_t, Position> nodes;  ///< Only looked up, never walked.
    std::vector<OsmWay> ways;
    std::vector<OsmMultipolygon> multipolygons;
};

/// Gathers the elements below the root of an OSM file. Tagged nodes go to the map at once. Deleted elements and
/// relations of other kinds are counted as left out; what is no element of OSM is an error.
OsmElements osm_elements(const pugi::xml_node& root, MapBuilder& map);

}  // namespace spadework::drawn_map
