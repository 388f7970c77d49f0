#include "site_file/keys.hpp"

namespace spadework::site_file {

namespace {

constexpr Key use_key = {.name = "use",
                         .type = ValueType::choice,
                         .required = true,
                         .choices = "open-ground obstacle overlay",
                         .meaning =
                             "open-ground: may be crossed anywhere, at the price of its ground. obstacle: may "
                             "not be entered. overlay: changes what lies inside it."};
constexpr Key ground_key = {.name = "ground",
                            .type = ValueType::reference,
                            .source = "none for obstacles, unchanged inside overlays; required for open ground",
                            .meaning = "Ground of open ground, or what an overlay changes the ground to."};
constexpr Key extra_key = {.name = "extra-per-length",
                           .type = ValueType::number,
                           .unit = Unit::money_per_length,
                           .fallback = "0",
                           .source = "no cost where none is given",
                           .meaning =
                               "Of an overlay: on top of opening what lies inside. Using a duct or a pole line "
                               "that is already there costs no extra."};
Key charges_key() {
    return {.name = "charges",
            .type = ValueType::record_list,
            .source = "none",
            .record = &charge_record(),
            .meaning = "Of an overlay: paid once for each segment inside that is used."};
}

constexpr Key bars_key = {.name = "bars-segments",
                          .type = ValueType::flag,
                          .fallback = "true",
                          .source = "the format's own choice",
                          .meaning =
                              "Of an obstacle: segments that enter it may not be used. false where ways of the "
                              "map lead through, such as a passage through a building; open ground is kept "
                              "clear of the obstacle all the same."};

}  // namespace

const Record& area_record() {
    static const Key keys[] = {
        {.name = "id", .type = ValueType::id, .required = true, .meaning = "Name it is known by."},
        {.name = "name", .type = ValueType::text, .source = "none", .meaning = "Name for people to read."},
        use_key,
        ground_key,
        extra_key,
        charges_key(),
        bars_key,
        {.name = "border",
         .type = ValueType::positions,
         .required = true,
         .least_items = 3,
         .meaning = "Corners of its border in order; the last is joined to the first."},
        {.name = "holes",
         .type = ValueType::rings,
         .source = "none",
         .meaning = "Parts inside the border that do not belong to it."},
    };
    static const Record record = {"an area", "map.areas[]", keys};
    return record;
}

const Record& geojson_area_rule_record() {
    static const Key keys[] = {
        {.name = "property",
         .type = ValueType::text,
         .required = true,
         .meaning = "Property of a polygon that tells what it is."},
        {.name = "values",
         .type = ValueType::record_map,
         .required = true,
         .record = &geojson_area_kind_record(),
         .least_items = 1,
         .meaning = "What the polygon is, by value of that property; `*` stands for every other value but `no`."},
    };
    static const Record record = {"a rule for areas", "map.geojson.areas[]", keys};
    return record;
}

const Record& geojson_area_kind_record() {
    static const Key keys[] = {use_key, ground_key, extra_key, charges_key(), bars_key};
    static const Record record = {"a kind of area", "map.geojson.areas[].values.VALUE", keys};
    return record;
}

const Record& open_ground_record() {
    static const Key keys[] = {
        {.name = "spacing",
         .type = ValueType::number,
         .unit = Unit::length,
         .least = 0.1,
         .most = 10000,
         .source = "by the size of all open ground: about 1,000 lattice points in all, and not under 1 m",
         .meaning = "Distance between the points of the lattice that open ground becomes."},
        {.name = "directions",
         .type = ValueType::whole,
         .least = 8,
         .most = 32,
         .fallback = "16",
         .source = "ways over the lattice are at most 2.8 % longer than a straight line, with 8 up to 8.2 %, with 32 "
                   "up to 1.4 %",
         .meaning = "Ways from each point of the lattice: 8, 16 or 32."},
        {.name = "reach",
         .type = ValueType::number,
         .unit = Unit::length,
         .most = 100,
         .fallback = "3",
         .source = "half of a wide path, common practice",
         .meaning = "Segments and buildings within this distance of open ground are joined to it; the step up to its "
                    "border costs what the segment's ground costs, or from a building what the open ground costs."},
    };
    static const Record record = {"rules for open ground", "rules.open-ground", keys};
    return record;
}

}  // namespace spadework::site_file
