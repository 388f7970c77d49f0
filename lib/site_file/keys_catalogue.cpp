#include "site_file/keys.hpp"

namespace spadework::site_file {

namespace {

constexpr Key id_key = {
    .name = "id", .type = ValueType::id, .required = true, .meaning = "Name others refer to it by."};
constexpr Key name_key = {
    .name = "name", .type = ValueType::text, .source = "the id", .meaning = "Name for people to read."};
constexpr std::string_view from_standard = "the standard's; required without `standard`";

constexpr Key price(std::string_view name, std::string_view meaning) {
    return {.name = name, .type = ValueType::number, .unit = Unit::money, .required = true, .meaning = meaning};
}

constexpr Key count(std::string_view name, double least, double most, std::string_view meaning) {
    return {.name = name, .type = ValueType::whole, .required = true, .least = least, .most = most, .meaning = meaning};
}

constexpr Key install_hours = {.name = "install-hours",
                               .type = ValueType::number,
                               .unit = Unit::hours,
                               .required = true,
                               .most = 1000,
                               .meaning = "Installer hours to set it up, without the strands."};
constexpr Key fastest_rate = {
    .name = "fastest-rate", .type = ValueType::rate, .required = true, .meaning = "Of its optic ports."};

constexpr Key figure(std::string_view name, Unit unit, double least, double most, std::string_view meaning) {
    return {.name = name,
            .type = ValueType::number,
            .unit = unit,
            .least = least,
            .most = most,
            .source = from_standard,
            .meaning = meaning};
}

constexpr Key products(std::string_view name, const Record* record, int least_items, std::string_view meaning) {
    return {.name = name,
            .type = ValueType::record_list,
            .required = least_items > 0,
            .source = least_items > 0 ? "" : "none",
            .record = record,
            .least_items = least_items,
            .meaning = meaning};
}

}  // namespace

const Record& catalogue_record() {
    static const Key keys[] = {
        products("cables", &cable_record(), 1, "Fibre cables, one for each number of strands."),
        products("enclosures", &enclosure_record(), 0, "Outdoor termination enclosures."),
        products("optics", &optic_record(), 1, "Transceivers."),
        products("attenuators", &attenuator_record(), 0, "Attenuators for receivers that would be overloaded."),
        products("building-gear", &building_gear_record(), 1, "Powered gear in the buildings."),
        products("hub-gear", &hub_gear_record(), 0, "Switches at the hub."),
        products("patch-cords", &patch_cord_record(), 1, "Patch cords."),
        {.name = "splicing",
         .type = ValueType::record,
         .required = true,
         .record = &splicing_record(),
         .meaning = "Work and material where strands are joined on site."},
    };
    static const Record record = {"a catalogue", "catalogue", keys};
    return record;
}

const Record& cable_record() {
    static const Key keys[] = {
        id_key,
        name_key,
        count("strands", 1, 10000, "Strands in the cable."),
        {.name = "strands-per-tube",
         .type = ValueType::whole,
         .least = 1,
         .most = 1000,
         .fallback = "12",
         .source = "ANSI/TIA-598 practice: twelve colours a tube",
         .meaning = "Strands in each tube, for the colours."},
        {.name = "price",
         .type = ValueType::number,
         .unit = Unit::money_per_length,
         .required = true,
         .meaning = "Price of the cable."},
        price("end", "One factory-made end of the whole cable."),
        {.name = "step",
         .type = ValueType::number,
         .unit = Unit::length,
         .required = true,
         .most = 10000,
         .above_least = true,
         .meaning = "Factory-made lengths come in whole steps."},
        {.name = "longest",
         .type = ValueType::number,
         .unit = Unit::length,
         .required = true,
         .most = 1e6,
         .above_least = true,
         .meaning = "Longest factory-made length; a longer run is joined."},
        {.name = "diameter",
         .type = ValueType::number,
         .unit = Unit::length,
         .required = true,
         .most = 1,
         .above_least = true,
         .meaning = "Outer diameter."},
        {.name = "tension",
         .type = ValueType::number,
         .unit = Unit::newtons,
         .most = 100000,
         .above_least = true,
         .source = "2669 N is told as usual: 7 CFR 1755.200",
         .meaning = "Most pull while it is laid, by its maker."},
    };
    static const Record record = {"a cable", "catalogue.cables[]", keys};
    return record;
}

const Record& enclosure_record() {
    static const Key keys[] = {
        id_key,        name_key, count("adapters", 1, 10000, "Strands it can patch through."), price("price", "Price."),
        install_hours,
    };
    static const Record record = {"an enclosure", "catalogue.enclosures[]", keys};
    return record;
}

const Record& optic_record() {
    static const Key keys[] = {
        id_key,
        name_key,
        {.name = "standard",
         .type = ValueType::text,
         .source = "none",
         .meaning = "Name of a standard transceiver, which gives every figure that is not given here: 1000BASE-LX10."},
        {.name = "rate", .type = ValueType::rate, .source = from_standard, .meaning = "Line rate."},
        {.name = "strand-use",
         .type = ValueType::choice,
         .source = from_standard,
         .choices = "duplex bidirectional",
         .meaning = "Two strands a link, or one."},
        {.name = "reach",
         .type = ValueType::number,
         .unit = Unit::length,
         .most = 1e6,
         .above_least = true,
         .source = from_standard,
         .meaning = "Longest link."},
        {.name = "least-length",
         .type = ValueType::number,
         .unit = Unit::length,
         .most = 1e6,
         .source = "the standard's, or 0",
         .meaning = "Shortest link."},
        {.name = "to-building",
         .type = ValueType::record,
         .source = from_standard,
         .record = &optical_figures_record(),
         .meaning = "Hub transmits, building receives."},
        {.name = "to-hub",
         .type = ValueType::record,
         .source = "the standard's, or as `to-building`",
         .record = &optical_figures_record(),
         .meaning = "Building transmits, hub receives."},
        price("price", "Price of one end."),
        {.name = "source",
         .type = ValueType::text,
         .source = "the standard's, or the site file",
         .meaning = "Where the figures come from."},
    };
    static const Record record = {"an optic", "catalogue.optics[]", keys};
    return record;
}

const Record& optical_figures_record() {
    static const Key keys[] = {
        figure("wavelength", Unit::nanometres, 600, 1700, "Of the transmitter."),
        figure("launch-min", Unit::dbm, -60, 60, "Least average launch power."),
        figure("launch-max", Unit::dbm, -60, 60, "Most average launch power."),
        figure("receive-min", Unit::dbm, -80, 60, "Sensitivity, or the standard's least average receive power."),
        figure("receive-max", Unit::dbm, -80, 60, "Overload."),
        {.name = "penalties",
         .type = ValueType::number,
         .unit = Unit::decibels,
         .most = 60,
         .source = "the standard's, or 0",
         .meaning = "Set aside out of launch-min - receive-min; 0 where receive-min has them removed."},
    };
    static const Record record = {"optical figures", "catalogue.optics[].to-building", keys};
    return record;
}

const Record& attenuator_record() {
    static const Key keys[] = {
        id_key,
        name_key,
        {.name = "loss",
         .type = ValueType::number,
         .unit = Unit::decibels,
         .required = true,
         .most = 60,
         .above_least = true,
         .meaning = "Loss, its own connection within it."},
        price("price", "Price."),
    };
    static const Record record = {"an attenuator", "catalogue.attenuators[]", keys};
    return record;
}

const Record& building_gear_record() {
    static const Key keys[] = {
        id_key,
        name_key,
        {.name = "kind",
         .type = ValueType::choice,
         .required = true,
         .choices = "media-converter poe-switch ethernet-switch",
         .meaning = "What it is."},
        count("optic-ports", 1, 1000, "Optic ports; a building inside a chain or ring needs two."),
        count("copper-ports", 0, 1000, "Copper ports."),
        {.name = "poe-budget",
         .type = ValueType::number,
         .unit = Unit::watts,
         .most = 100000,
         .fallback = "0",
         .source = "it feeds no devices",
         .meaning = "Power for all ports together, at the supplying side."},
        fastest_rate,
        price("price", "Price."),
        install_hours,
    };
    static const Record record = {"building gear", "catalogue.building-gear[]", keys};
    return record;
}

const Record& hub_gear_record() {
    static const Key keys[] = {
        id_key,
        name_key,
        count("optic-ports", 1, 10000, "Optic ports."),
        {.name = "copper-ports",
         .type = ValueType::whole,
         .most = 10000,
         .fallback = "0",
         .source = "none assumed",
         .meaning = "Copper ports."},
        fastest_rate,
        price("price", "Price."),
        install_hours,
    };
    static const Record record = {"hub gear", "catalogue.hub-gear[]", keys};
    return record;
}

const Record& patch_cord_record() {
    static const Key keys[] = {
        id_key,
        name_key,
        count("strands", 1, 2, "2 for duplex, 1 for bidirectional links."),
        price("price", "Price."),
    };
    static const Record record = {"a patch cord", "catalogue.patch-cords[]", keys};
    return record;
}

const Record& splicing_record() {
    static const Key keys[] = {
        price("pigtail", "A pigtail and its splice sleeve, one strand."),
        {.name = "hours-per-splice",
         .type = ValueType::number,
         .unit = Unit::hours,
         .required = true,
         .most = 1000,
         .meaning = "One strand prepared, spliced and stored."},
        {.name = "set-up-hours",
         .type = ValueType::number,
         .unit = Unit::hours,
         .required = true,
         .most = 1000,
         .meaning = "Once a splicing place."},
        {.name = "rate",
         .type = ValueType::number,
         .unit = Unit::money_per_hour,
         .required = true,
         .meaning = "Splicer with machine."},
    };
    static const Record record = {"splicing", "catalogue.splicing", keys};
    return record;
}

}  // namespace spadework::site_file
