#include "site_file/keys.hpp"

namespace spadework::site_file {

namespace {

constexpr double longest_length = 1e6;

constexpr Key id_key = {
    .name = "id", .type = ValueType::id, .required = true, .meaning = "Name others refer to it by."};
constexpr Key name_key = {
    .name = "name", .type = ValueType::text, .source = "the id", .meaning = "Name for people to read."};

constexpr std::string_view no_charge = "no cost where none is given";

constexpr Key per_length(std::string_view name, std::string_view meaning) {
    return {.name = name,
            .type = ValueType::number,
            .unit = Unit::money_per_length,
            .fallback = "0",
            .source = no_charge,
            .meaning = meaning};
}

constexpr Key labour_key = {.name = "labour",
                            .type = ValueType::number,
                            .unit = Unit::hours_per_length,
                            .most = 1000,
                            .fallback = "0",
                            .source = no_charge,
                            .meaning = "Hours of the digging crew."};
constexpr Key plant_key = per_length("plant", "Machines.");
constexpr Key material_key = per_length("material", "Bedding, tape, fittings.");
constexpr Key reinstatement_key = per_length("reinstatement", "Making the surface good.");
constexpr Key set_up_key = {.name = "set-up",
                            .type = ValueType::number,
                            .unit = Unit::money,
                            .fallback = "0",
                            .source = no_charge,
                            .meaning = "Once for every segment opened this way."};

constexpr Key pull_key(std::string_view hours) {
    return {.name = "pull",
            .type = ValueType::number,
            .unit = Unit::hours_per_length,
            .most = 1000,
            .fallback = hours,
            .source = "common practice, no published source",
            .meaning = "Installer hours for each cable."};
}

}  // namespace

const Record& map_record() {
    static const Key keys[] = {
        {.name = "coordinates",
         .type = ValueType::choice,
         .fallback = "plane",
         .source = "the format's own choice",
         .choices = "plane wgs84",
         .meaning = "plane: x east and y north on a local plan, in the site's units. wgs84: longitude and latitude in "
                    "degrees. A GeoJSON map is always wgs84 (RFC 7946 section 4)."},
        {.name = "places",
         .type = ValueType::record_list,
         .source = "none; required unless `geojson` is given",
         .record = &place_record(),
         .meaning = "Points of the map."},
        {.name = "segments",
         .type = ValueType::record_list,
         .source = "none; required unless `geojson` is given",
         .record = &segment_record(),
         .meaning = "Ways along which cables may run."},
        {.name = "geojson",
         .type = ValueType::record,
         .source = "none",
         .record = &geojson_record(),
         .meaning = "A GeoJSON file (RFC 7946) as the map, instead of `places` and `segments`, and how to read it."},
        {.name = "areas",
         .type = ValueType::record_list,
         .source = "none: trenches follow segments",
         .record = &area_record(),
         .meaning = "Open ground, obstacles and overlays. They may stand beside a GeoJSON map too."},
    };
    static const Record record = {"a map", "map", keys};
    return record;
}

const Record& place_record() {
    static const Key keys[] = {
        id_key,
        name_key,
        {.name = "kind",
         .type = ValueType::choice,
         .fallback = "junction",
         .source = "the format's own choice",
         .choices = "junction handhole pole building hub",
         .meaning = "What stands there. A place that the hub or a building names becomes one of that kind."},
        {.name = "at", .type = ValueType::position, .required = true, .meaning = "Where it is."},
        {.name = "enclosure",
         .type = ValueType::record,
         .record = &place_enclosure_record(),
         .meaning = "Whether an enclosure may stand there."},
    };
    static const Record record = {"a place", "map.places[]", keys};
    return record;
}

const Record& place_enclosure_record() {
    static const Key keys[] = {
        {.name = "allowed",
         .type = ValueType::flag,
         .source = "rules.enclosure-kinds",
         .meaning = "Whether an enclosure may stand there."},
        {.name = "reason",
         .type = ValueType::text,
         .source = "none",
         .meaning = "Why not, or what makes it dear there."},
        {.name = "extra",
         .type = ValueType::number,
         .unit = Unit::money,
         .fallback = "0",
         .source = no_charge,
         .meaning = "On top of the enclosure's own price."},
    };
    static const Record record = {"an enclosure rule", "map.places[].enclosure", keys};
    return record;
}

const Record& segment_record() {
    static const Key keys[] = {
        id_key,
        {.name = "name", .type = ValueType::text, .source = "none", .meaning = "Name for people to read."},
        {.name = "from", .type = ValueType::reference, .required = true, .meaning = "Place it starts at."},
        {.name = "to", .type = ValueType::reference, .required = true, .meaning = "Place it ends at."},
        {.name = "via",
         .type = ValueType::positions,
         .source = "a straight line",
         .meaning = "Bends on the way, in order."},
        {.name = "length",
         .type = ValueType::number,
         .unit = Unit::length,
         .least = 0.001,
         .most = longest_length,
         .source = "along the polyline",
         .ranges = Ranges::yes,
         .meaning = "Length, where it is better known than the map shows."},
        {.name = "ground", .type = ValueType::reference, .required = true, .meaning = "Ground it runs through."},
        {.name = "duct",
         .type = ValueType::record,
         .source = "none",
         .record = &segment_duct_record(),
         .meaning = "A duct that is already there."},
        {.name = "poles",
         .type = ValueType::flag,
         .fallback = "false",
         .source = "none assumed",
         .meaning = "Poles stand along it: cables may be hung."},
        {.name = "charges",
         .type = ValueType::record_list,
         .source = "none",
         .record = &charge_record(),
         .meaning = "Paid once when the segment is used."},
        {.name = "ban", .type = ValueType::text, .source = "it may be used", .meaning = "Why it may not be used."},
    };
    static const Record record = {"a segment", "map.segments[]", keys};
    return record;
}

const Record& segment_duct_record() {
    static const Key keys[] = {
        {.name = "room",
         .type = ValueType::whole,
         .most = 1000,
         .source = "by `inner-diameter` and rules.duct-fill; required without it",
         .meaning = "Cables it can still take. Where its inside is given too, the smaller of the two counts."},
        {.name = "inner-diameter",
         .type = ValueType::number,
         .unit = Unit::length,
         .most = 10,
         .above_least = true,
         .source = "not known",
         .meaning = "Inner diameter. The room is then counted with the thickest cable of the catalogue."},
        {.name = "cables",
         .type = ValueType::record_list,
         .source = "none",
         .record = &duct_cable_record(),
         .meaning = "Cables that lie in it already."},
    };
    static const Record record = {"a duct", "map.segments[].duct", keys};
    return record;
}

const Record& duct_cable_record() {
    static const Key keys[] = {
        {.name = "diameter",
         .type = ValueType::number,
         .unit = Unit::length,
         .required = true,
         .most = 1,
         .above_least = true,
         .meaning = "Outer diameter."},
        {.name = "count",
         .type = ValueType::whole,
         .least = 1,
         .most = 1000,
         .fallback = "1",
         .source = "one cable where no number is given",
         .meaning = "How many of them."},
    };
    static const Record record = {"a cable in a duct", "map.segments[].duct.cables[]", keys};
    return record;
}

const Record& charge_record() {
    static const Key keys[] = {
        {.name = "what", .type = ValueType::text, .required = true, .meaning = "What is paid for."},
        {.name = "category",
         .type = ValueType::choice,
         .fallback = "crossing",
         .source = "the format's own choice",
         .choices = "crossing permit",
         .meaning = "How the quote lists it."},
        {.name = "amount", .type = ValueType::number, .unit = Unit::money, .required = true, .meaning = "Price."},
    };
    static const Record record = {"a charge", "map.segments[].charges[]", keys};
    return record;
}

const Record& ground_record() {
    static const Key keys[] = {
        name_key,
        {.name = "methods",
         .type = ValueType::record_list,
         .required = true,
         .record = &method_record(),
         .least_items = 1,
         .meaning = "Ways of opening it; the cheapest for a segment counts."},
        {.name = "difficulty",
         .type = ValueType::number,
         .most = 50,
         .fallback = "1",
         .source = "prices as they are given",
         .ranges = Ranges::yes,
         .meaning =
             "What labour, plant, material and reinstatement of every method are multiplied by. A chance of rock "
             "that makes it two and a half times as dear is {chance: 0.2, otherwise: 1, then: 2.5}."},
    };
    static const Record record = {"a ground", "grounds.NAME", keys};
    return record;
}

const Record& method_record() {
    static const Key keys[] = {
        id_key,
        {.name = "kind",
         .type = ValueType::choice,
         .required = true,
         .choices = "open-cut plough narrow-trench bore",
         .meaning = "How it is opened."},
        labour_key,
        plant_key,
        material_key,
        reinstatement_key,
        set_up_key,
        {.name = "depth",
         .type = ValueType::number,
         .unit = Unit::length,
         .required = true,
         .most = 100,
         .above_least = true,
         .meaning = "Depth of the trench or bore; no national standard sets one figure, so it must be given."},
        per_length("duct", "New duct for each cable."),
        pull_key("0.02"),
    };
    static const Record record = {"a method", "grounds.NAME.methods[]", keys};
    return record;
}

const Record& existing_duct_record() {
    static const Key keys[] = {labour_key, plant_key, material_key, set_up_key, pull_key("0.02")};
    static const Record record = {"the use of existing ducts", "existing-duct", keys};
    return record;
}

const Record& pole_line_record() {
    static const Key keys[] = {labour_key, plant_key, material_key, set_up_key, pull_key("0.03")};
    static const Record record = {"the use of pole lines", "pole-line", keys};
    return record;
}

}  // namespace spadework::site_file
