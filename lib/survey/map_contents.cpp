#include "survey/map_contents.hpp"

#include <algorithm>
#include <tuple>

#include <fmt/format.h>

#include "geometry/nearest_stretch.hpp"
#include "scenario/local_plane.hpp"
#include "survey/name_pool.hpp"

namespace spadework::survey {

namespace {

using drawn_map::Feature;
using drawn_map::Shape;
using drawn_map::tag_of;

/// A feature and the format of the file it came in.
struct Entry {
    const Feature* feature;
    const std::string* format;
};

bool precedes(const Position& a, const Position& b) {
    return std::tie(a.x, a.y) < std::tie(b.x, b.y);
}

int order_of_parts(const std::vector<std::vector<Position>>& a, const std::vector<std::vector<Position>>& b) {
    if (a.size() != b.size()) return a.size() < b.size() ? -1 : 1;
    for (std::size_t part = 0; part < a.size(); ++part) {
        if (a[part].size() != b[part].size()) return a[part].size() < b[part].size() ? -1 : 1;
        for (std::size_t i = 0; i < a[part].size(); ++i) {
            if (precedes(a[part][i], b[part][i])) return -1;
            if (precedes(b[part][i], a[part][i])) return 1;
        }
    }
    return 0;
}

int order_of_tags(const std::vector<drawn_map::Tag>& a, const std::vector<drawn_map::Tag>& b) {
    if (a.size() != b.size()) return a.size() < b.size() ? -1 : 1;
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (const int order = a[i].key.compare(b[i].key); order != 0) return order;
        if (const int order = a[i].value.compare(b[i].value); order != 0) return order;
    }
    return 0;
}

/// By shape, id, name, place and tags: an order of what is drawn, not of how the file lists it.
int order_of(const Entry& a, const Entry& b) {
    if (a.feature->shape != b.feature->shape) return a.feature->shape < b.feature->shape ? -1 : 1;
    if (const int order = a.feature->id.compare(b.feature->id); order != 0) return order;
    if (const int order = a.feature->name.compare(b.feature->name); order != 0) return order;
    if (const int order = order_of_parts(a.feature->parts, b.feature->parts); order != 0) return order;
    if (const int order = order_of_tags(a.feature->tags, b.feature->tags); order != 0) return order;
    return a.format->compare(*b.format);
}

std::vector<Entry> entries_in_order(const std::vector<drawn_map::DrawnMap>& maps) {
    std::vector<Entry> entries;
    for (const drawn_map::DrawnMap& map : maps) {
        for (const Feature& feature : map.features)
            entries.push_back({&feature, &map.format});
    }
    std::sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) { return order_of(a, b) < 0; });
    return entries;
}

/// "Hill Street 12" from the tags of an address; "" without a street.
std::string address_of(const Feature& feature) {
    const std::string& street = tag_of(feature, "addr:street");
    const std::string& number = tag_of(feature, "addr:housenumber");
    if (street.empty() || number.empty()) return "";
    return street + " " + number;
}

class Sorter {
public:
    Sorter(const TagTable& table, const std::string& default_ground) : table_(table), default_ground_(default_ground) {}

    MapContents sort(const std::vector<drawn_map::DrawnMap>& maps) {
        const std::vector<Entry> entries = entries_in_order(maps);
        for (std::size_t i = 0; i < entries.size(); ++i) {
            if (i > 0 && order_of(entries[i - 1], entries[i]) == 0) {
                ++contents_.repeated_features;
                continue;
            }
            add(*entries[i].feature, *entries[i].format);
        }
        return std::move(contents_);
    }

private:
    void add(const Feature& feature, const std::string& format) {
        if (feature.shape == Shape::line) return add_line(feature, format);
        const bool is_area = feature.shape == Shape::area;
        const TagRule* rule = is_area ? rule_of_area(table_, feature, format) : rule_of_point(table_, feature, format);
        const Use use = rule == nullptr ? Use::left_out : rule->use;
        if (use == Use::left_out) {
            ++(is_area ? contents_.areas_left_out : contents_.points_left_out);
        } else if (use == Use::building) {
            add_building(feature);
        } else if (use == Use::entrance) {
            contents_.entrances.push_back(feature.parts.front().front());
        } else {
            add_area(feature, *rule);
        }
    }

    void add_line(const Feature& feature, const std::string& format) {
        LineMeaning meaning = meaning_of_line(table_, feature, format, default_ground_);
        if (meaning.use == Use::left_out) {
            ++contents_.lines_left_out;
            return;
        }
        Way way;
        way.id = way_ids_.take(!feature.id.empty() ? feature.id : !feature.name.empty() ? feature.name : "line");
        way.name = feature.name;
        way.points = feature.parts.front();
        way.level = level_of(feature);
        way.ground_choice = number_of(meaning.ground);
        if (meaning.use == Use::barred) way.ban = meaning.reason;
        way.charges = std::move(meaning.charges);
        contents_.ways.push_back(std::move(way));
    }

    int number_of(const GroundChoice& choice) {
        const auto [entry, is_new] =
            choice_numbers_.try_emplace(choice, static_cast<int>(contents_.ground_choices.size()));
        if (is_new) contents_.ground_choices.push_back(choice);
        return entry->second;
    }

    void add_building(const Feature& feature) {
        DrawnBuilding building;
        const std::string address = address_of(feature);
        building.file_id = feature.id;
        building.id = !feature.name.empty() ? feature.name
                      : !address.empty()    ? address
                      : !feature.id.empty() ? feature.id
                                            : "building";
        building.name = building.id;
        building.rings = feature.parts;
        building.from_point = feature.shape == Shape::point;
        contents_.buildings.push_back(std::move(building));
    }

    void add_area(const Feature& feature, const TagRule& rule) {
        DrawnArea area;
        const std::string kind = rule.use == Use::open_ground ? "open ground"
                                 : rule.use == Use::overlay   ? "overlay"
                                                              : "obstacle";
        area.id = area_ids_.take(!feature.id.empty() ? feature.id : !feature.name.empty() ? feature.name : kind);
        area.name = feature.name;
        area.use = rule.use == Use::open_ground ? AreaUse::open_ground
                   : rule.use == Use::overlay   ? AreaUse::overlay
                                                : AreaUse::obstacle;
        area.ground = rule.ground;
        area.extra_per_metre = rule.extra_per_metre;
        area.charges = rule.charges;
        area.rings = feature.parts;
        contents_.areas.push_back(std::move(area));
    }

    const TagTable& table_;
    const std::string& default_ground_;
    MapContents contents_;
    std::map<GroundChoice, int> choice_numbers_;
    NamePool way_ids_;
    NamePool area_ids_;
};

std::vector<Position> middle_positions(const std::vector<DrawnBuilding>& buildings) {
    std::vector<Position> middles;
    for (const DrawnBuilding& building : buildings)
        middles.push_back(building.rings.front().front());
    return middles;
}

/// Finds the outline that holds a point.
class OutlineSearch {
public:
    explicit OutlineSearch(const std::vector<DrawnBuilding>& buildings)
        : buildings_(buildings), plane_(CoordinateSystem::wgs84_degrees, middle_positions(buildings)) {
        std::vector<Stretch> sides;
        for (std::size_t i = 0; i < buildings.size(); ++i) {
            if (buildings[i].from_point) continue;
            const std::vector<Position>& ring = buildings[i].rings.front();
            for (std::size_t k = 0; k < ring.size(); ++k) {
                sides.push_back({plane_.to_plane(ring[k]), plane_.to_plane(ring[(k + 1) % ring.size()])});
                owner_.push_back(i);
            }
        }
        search_.emplace(std::move(sides));
    }

    /// The outline whose wall is nearest among those that hold the point; -1 where none does. The walls of an outline
    /// that holds the point come before all that lie beyond them, so that few are looked at.
    [[nodiscard]] int holding(const Position& at) const {
        const Position point = plane_.to_plane(at);
        const auto holds = [&](std::size_t side) { return ring_holds(buildings_[owner_[side]].rings.front(), at); };
        const auto nearest = search_->nearest({{point, point}});
        if (!nearest) return -1;
        if (holds(nearest->stretch)) return static_cast<int>(owner_[nearest->stretch]);
        return -1;
    }

private:
    const std::vector<DrawnBuilding>& buildings_;
    LocalPlane plane_;
    std::vector<std::size_t> owner_;
    std::optional<StretchSearch> search_;
};

/// A point inside an outline is that building: it gives it its name.
void merge_points_into_outlines(MapContents& contents) {
    if (contents.buildings.empty()) return;
    const OutlineSearch outlines(contents.buildings);
    std::vector<char> merged(contents.buildings.size(), 0);
    for (std::size_t i = 0; i < contents.buildings.size(); ++i) {
        if (!contents.buildings[i].from_point) continue;
        const int outline = outlines.holding(contents.buildings[i].rings.front().front());
        if (outline < 0) continue;
        merged[i] = 1;
        ++contents.points_in_buildings;
        DrawnBuilding& whole = contents.buildings[static_cast<std::size_t>(outline)];
        const std::string& name = contents.buildings[i].id;
        if (whole.id == whole.file_id && whole.further_names.empty() && name != "building")
            whole.id = whole.name = name;
        whole.further_names.push_back(name);
        if (!contents.buildings[i].file_id.empty()) whole.further_names.push_back(contents.buildings[i].file_id);
    }
    std::size_t kept = 0;
    for (std::size_t i = 0; i < contents.buildings.size(); ++i) {
        if (merged[i] != 0) continue;
        if (kept != i) contents.buildings[kept] = std::move(contents.buildings[i]);
        ++kept;
    }
    contents.buildings.resize(kept);
}

/// Leaves one of each outline drawn twice under different names.
void drop_repeated_outlines(MapContents& contents) {
    std::stable_sort(
        contents.buildings.begin(), contents.buildings.end(),
        [](const DrawnBuilding& a, const DrawnBuilding& b) { return order_of_parts(a.rings, b.rings) < 0; });
    std::vector<DrawnBuilding> kept;
    for (DrawnBuilding& building : contents.buildings) {
        if (!kept.empty() && order_of_parts(kept.back().rings, building.rings) == 0) {
            ++contents.repeated_features;
            kept.back().further_names.push_back(building.id);
            continue;
        }
        kept.push_back(std::move(building));
    }
    contents.buildings = std::move(kept);
}

void give_ids_to_buildings(MapContents& contents) {
    std::stable_sort(contents.buildings.begin(), contents.buildings.end(),
                     [](const DrawnBuilding& a, const DrawnBuilding& b) {
                         return std::tie(a.id, a.file_id) < std::tie(b.id, b.file_id);
                     });
    NamePool ids;
    for (DrawnBuilding& building : contents.buildings)
        building.id = ids.take(building.id);
}

}  // namespace

MapContents contents_of(const std::vector<drawn_map::DrawnMap>& maps, const TagTable& table,
                        const std::string& default_ground) {
    MapContents contents = Sorter(table, default_ground).sort(maps);
    drop_repeated_outlines(contents);
    merge_points_into_outlines(contents);
    give_ids_to_buildings(contents);
    return contents;
}

}  // namespace spadework::survey
