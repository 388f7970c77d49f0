#include "drawn_map/osm_area_rule.hpp"

#include <algorithm>
#include <string_view>

namespace spadework::drawn_map {

namespace {

/// What values of a key draw on a closed way.
struct Rule {
    std::string_view key;
    bool area;                                 ///< Any value save those listed.
    std::vector<std::string_view> other = {};  ///< Values for which it is the other way round.
};

/// The first key that a way has decides.
const std::vector<Rule>& rules() {
    static const std::vector<Rule> list = {
        {"building", true, {"no"}},
        {"building:part", true, {"no"}},
        {"highway", false, {"platform", "services", "rest_area"}},
        {"railway", false, {"platform", "station", "turntable", "roundhouse"}},
        {"aeroway", true, {"taxiway", "runway", "jet_bridge", "parking_position", "navigationaid"}},
        {"barrier", false, {"block", "jersey_barrier"}},
        {"landuse", true, {}},
        {"natural", true, {"coastline", "cliff", "ridge", "arete", "tree_row", "valley", "earth_bank"}},
        {"leisure", true, {"track", "slipway"}},
        {"amenity", true, {}},
        {"shop", true, {}},
        {"office", true, {}},
        {"craft", true, {}},
        {"tourism", true, {}},
        {"historic", true, {"citywalls"}},
        {"military", true, {"trench"}},
        {"place", true, {}},
        {"public_transport", true, {}},
        {"area:highway", true, {}},
        {"water", true, {}},
        {"waterway", false, {"riverbank", "dock", "boatyard", "fuel"}},
        {"power", false, {"substation", "plant", "generator", "station", "transformer"}},
        {"man_made", true, {"breakwater", "cutline", "dyke", "embankment", "groyne", "pipeline"}},
        {"golf", true, {"cartpath", "hole", "path"}},
        {"playground", true, {}},
    };
    return list;
}

}  // namespace

bool closed_way_is_area(const std::vector<Tag>& tags) {
    const auto value_of = [&](std::string_view key) -> const std::string* {
        const auto found = std::ranges::find(tags, key, &Tag::key);
        return found == tags.end() ? nullptr : &found->value;
    };
    if (const std::string* area = value_of("area"); area && (*area == "yes" || *area == "no")) return *area == "yes";
    for (const Rule& rule : rules()) {
        const std::string* value = value_of(rule.key);
        if (value == nullptr) continue;
        const bool is_other = std::ranges::find(rule.other, *value) != rule.other.end();
        // "building" = "no" says nothing about the way.
        if (is_other && *value == "no") continue;
        return rule.area != is_other;
    }
    return false;
}

}  // namespace spadework::drawn_map
