#include "site_file/keys.hpp"

namespace spadework::site_file {

const Record& geojson_record() {
    static const Key keys[] = {
        {.name = "file", .type = ValueType::file, .required = true, .meaning = "Path of the GeoJSON file."},
        {.name = "grounds",
         .type = ValueType::record,
         .required = true,
         .record = &geojson_grounds_record(),
         .meaning = "Which ground a line runs through, where its property `ground` does not say."},
        {.name = "length",
         .type = ValueType::text,
         .source = "none: along the line",
         .meaning = "Property of a line that tells its length, where that is better known than the map shows: a number "
                    "in the site's unit, or a range."},
        {.name = "bans",
         .type = ValueType::record,
         .source = "none",
         .record = &geojson_bans_record(),
         .meaning = "Which lines may not be used, beyond those whose property `ban` gives a reason."},
        {.name = "buildings",
         .type = ValueType::record,
         .record = &geojson_buildings_record(),
         .meaning = "Which points and polygons are buildings, and what they want."},
        {.name = "areas",
         .type = ValueType::record_list,
         .source = "none: no polygon is an area",
         .record = &geojson_area_rule_record(),
         .meaning = "Which polygons are open ground, obstacles or overlays; the first rule that fits counts. Such a "
                    "polygon is a building too only where `buildings.property` makes it one."},
        {.name = "lateral-ground",
         .type = ValueType::reference,
         .source = "grounds.default",
         .meaning = "Ground of the laterals drawn from the network to buildings that stand off it."},
        {.name = "longest-lateral",
         .type = ValueType::number,
         .unit = Unit::length,
         .most = 1e6,
         .above_least = true,
         .fallback = "300",
         .source = "common practice, no published source",
         .meaning = "Buildings farther from the network than this are cut off."},
        {.name = "cut-off",
         .type = ValueType::choice,
         .fallback = "error",
         .source = "the format's own choice",
         .choices = "error skip",
         .meaning = "What to do with buildings that the network does not reach."},
    };
    static const Record record = {"a GeoJSON map", "map.geojson", keys};
    return record;
}

const Record& geojson_grounds_record() {
    static const Key keys[] = {
        {.name = "property",
         .type = ValueType::text,
         .fallback = "surface",
         .source = "the usual property of open street data",
         .meaning = "Property of a line that tells its surface."},
        {.name = "values",
         .type = ValueType::text_map,
         .source = "none",
         .meaning = "Ground by value of that property. A value that is the name of a ground needs no entry."},
        {.name = "default",
         .type = ValueType::reference,
         .required = true,
         .meaning = "Ground of lines without the property, or with a value that is not listed."},
    };
    static const Record record = {"a choice of grounds", "map.geojson.grounds", keys};
    return record;
}

const Record& geojson_bans_record() {
    static const Key keys[] = {
        {.name = "property",
         .type = ValueType::text,
         .fallback = "highway",
         .source = "the usual property of open street data",
         .meaning = "Property of a line that tells its kind."},
        {.name = "values",
         .type = ValueType::text_map,
         .required = true,
         .least_items = 1,
         .meaning = "Reason by value of that property."},
    };
    static const Record record = {"a choice of bans", "map.geojson.bans", keys};
    return record;
}

const Record& geojson_buildings_record() {
    static const Key keys[] = {
        {.name = "property",
         .type = ValueType::text,
         .source = "none: every point and polygon is a building",
         .meaning = "Only points and polygons with this property are buildings."},
        {.name = "take",
         .type = ValueType::texts_or_word,
         .fallback = "listed",
         .source = "the format's own choice",
         .choices = "listed all",
         .meaning =
             "Which buildings are linked besides those of the section `buildings`: none (listed), all, or a list "
             "of ids or names."},
        {.name = "nearest",
         .type = ValueType::whole,
         .least = 1,
         .most = 1e6,
         .source = "no limit",
         .meaning = "Of those, only so many: the nearest to the hub as the crow flies."},
        {.name = "links",
         .type = ValueType::record_list,
         .fallback = "1 at 1G",
         .source = "common practice, no published source",
         .record = &link_record(),
         .least_items = 1,
         .meaning = "Links each of them wants."},
        {.name = "devices",
         .type = ValueType::record_list,
         .source = "none",
         .record = &device_record(),
         .meaning = "What hangs on the gear of each of them."},
    };
    static const Record record = {"a choice of buildings", "map.geojson.buildings", keys};
    return record;
}

}  // namespace spadework::site_file
