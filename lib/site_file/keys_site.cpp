#include <algorithm>

#include "site_file/keys.hpp"

namespace spadework::site_file {

namespace {

constexpr Key id_key = {
    .name = "id", .type = ValueType::id, .required = true, .meaning = "Name others refer to it by."};
constexpr Key name_key = {
    .name = "name", .type = ValueType::text, .source = "the id", .meaning = "Name for people to read."};

}  // namespace

const Record& site_record() {
    static const Key keys[] = {
        {.name = "format",
         .type = ValueType::whole,
         .required = true,
         .least = 1,
         .most = 1,
         .meaning = "Version of this format; heads the file."},
        {.name = "site", .type = ValueType::text, .required = true, .meaning = "Name of the site."},
        {.name = "note",
         .type = ValueType::text,
         .source = "none",
         .lines = true,
         .meaning = "A remark, carried into reports."},
        {.name = "units",
         .type = ValueType::choice,
         .fallback = "metric",
         .source = "the format's own choice",
         .choices = "metric feet",
         .meaning = "Whether every length, and price or hours a length, counts metres or feet."},
        {.name = "currency",
         .type = ValueType::currency,
         .required = true,
         .meaning = "Currency of every price (ISO 4217 letter code). Prices are in its major unit."},
        part_or_file("map", true, map_record(), "Places and the segments between them."),
        {.name = "grounds",
         .type = ValueType::record_map,
         .required = true,
         .record = &ground_record(),
         .may_be_file = true,
         .least_items = 1,
         .meaning = "Surface classes by name, each with its ways of opening."},
        part("existing-duct", existing_duct_record(),
             "What pulling cables through ducts that are already there takes."),
        part("pole-line", pole_line_record(), "What hanging cables on poles that are already there takes."),
        {.name = "hub",
         .type = ValueType::record,
         .required = true,
         .record = &hub_record(),
         .meaning = "The hub room."},
        {.name = "buildings",
         .type = ValueType::record_list,
         .source = "none; required unless the GeoJSON map takes its own",
         .record = &building_record(),
         .meaning = "Buildings to link to the hub."},
        part_or_file("catalogue", true, catalogue_record(), "What can be bought, at the contractor's prices."),
        part_or_file("labour", true, labour_record(), "Hourly rates and working times."),
        part_or_file("rules", false, rules_record(), "Allowances, policies and limits."),
        part("growth", growth_record(), "What may come later."),
    };
    static const Record record = {"a site", "", keys};
    return record;
}

const Record& hub_record() {
    static const Key keys[] = {
        {.name = "place",
         .type = ValueType::reference,
         .source = "the place nearest to `near`; one of the two must be given",
         .meaning = "Place the hub room stands at."},
        {.name = "near",
         .type = ValueType::position,
         .source = "not used",
         .meaning = "Position; the nearest place becomes the hub's. For GeoJSON maps without names."},
        {.name = "free-optic-ports",
         .type = ValueType::whole,
         .most = 1e6,
         .fallback = "0",
         .source = "nothing assumed to be there",
         .meaning = "Optic ports already there and unused."},
        {.name = "free-copper-ports",
         .type = ValueType::whole,
         .most = 1e6,
         .fallback = "0",
         .source = "nothing assumed to be there",
         .meaning = "Copper ports already there and unused."},
        {.name = "growth-ports",
         .type = ValueType::whole,
         .most = 10000,
         .fallback = "0",
         .source = "none assumed",
         .meaning = "Optic ports wanted free for links that come later."},
        {.name = "devices",
         .type = ValueType::record_list,
         .source = "none",
         .record = &hub_device_record(),
         .meaning = "What takes copper ports at the hub."},
        {.name = "uplink",
         .type = ValueType::rate,
         .source = "not known, so not held against the demand",
         .meaning = "Line rate from the hub to the rest of the world."},
    };
    static const Record record = {"a hub", "hub", keys};
    return record;
}

const Record& hub_device_record() {
    static const Key keys[] = {
        {.name = "what", .type = ValueType::text, .required = true, .meaning = "Recorder, server."},
        {.name = "count",
         .type = ValueType::whole,
         .least = 1,
         .most = 1000,
         .fallback = "1",
         .source = "one port where no number is given",
         .meaning = "Copper ports it takes."},
    };
    static const Record record = {"a device at the hub", "hub.devices[]", keys};
    return record;
}

const Record& building_record() {
    static const Key keys[] = {
        id_key,
        name_key,
        {.name = "place",
         .type = ValueType::reference,
         .source = "the place with the building's id",
         .meaning = "Place it stands at."},
        {.name = "links",
         .type = ValueType::record_list,
         .required = true,
         .record = &link_record(),
         .least_items = 1,
         .meaning = "Links wanted from the hub."},
        {.name = "devices",
         .type = ValueType::record_list,
         .source = "none",
         .record = &device_record(),
         .meaning = "What hangs on the building's gear."},
    };
    static const Record record = {"a building", "buildings[]", keys};
    return record;
}

const Record& link_record() {
    static const Key keys[] = {
        {.name = "rate", .type = ValueType::rate, .required = true, .meaning = "Line rate: 100M, 1G, 2.5G, 10G."},
        {.name = "count",
         .type = ValueType::whole,
         .least = 1,
         .most = 1000,
         .fallback = "1",
         .source = "one link where no number is given",
         .meaning = "How many such links."},
    };
    static const Record record = {"a link", "buildings[].links[]", keys};
    return record;
}

const Record& device_record() {
    static const Key keys[] = {
        {.name = "what", .type = ValueType::text, .required = true, .meaning = "Kind of device."},
        {.name = "count",
         .type = ValueType::whole,
         .least = 1,
         .most = 10000,
         .fallback = "1",
         .source = "one device where no number is given",
         .meaning = "How many."},
        {.name = "watts",
         .type = ValueType::number,
         .unit = Unit::watts,
         .most = 1000,
         .fallback = "0",
         .source = "not fed over the data cable",
         .meaning = "Power each takes over the data cable, at the device."},
        {.name = "copper-length",
         .type = ValueType::number,
         .unit = Unit::length,
         .most = 10000,
         .source = "not known, so not held against rules.copper-length",
         .meaning = "Longest copper run from the gear to one of them, cords included."},
    };
    static const Record record = {"a device", "buildings[].devices[]", keys};
    return record;
}

const Record& growth_record() {
    static const Key keys[] = {
        {.name = "headroom",
         .type = ValueType::number,
         .unit = Unit::percent,
         .most = 1000,
         .fallback = "0",
         .source = "the trunk's spare strands already hold a share for growth",
         .meaning = "Strands beyond those in use and spare, in every trunk."},
        {.name = "horizon",
         .type = ValueType::whole,
         .unit = Unit::years,
         .least = 1,
         .most = 100,
         .fallback = "10",
         .source = "common practice, no published source",
         .meaning = "How far ahead growth is counted."},
        {.name = "unnamed-links-per-year",
         .type = ValueType::number,
         .unit = Unit::per_year,
         .most = 1000,
         .fallback = "0",
         .source = "none assumed",
         .meaning = "Links a year that come at places not yet known."},
        {.name = "discount-rate",
         .type = ValueType::number,
         .unit = Unit::percent,
         .most = 100,
         .fallback = "0",
         .source = "none assumed",
         .meaning = "Yearly rate by which later costs count less."},
        {.name = "buildings",
         .type = ValueType::record_list,
         .source = "none",
         .record = &future_building_record(),
         .meaning = "Named buildings that may come."},
    };
    static const Record record = {"growth", "growth", keys};
    return record;
}

const Record& future_building_record() {
    static const Key keys[] = {
        id_key,
        name_key,
        {.name = "place", .type = ValueType::reference, .source = "not known", .meaning = "Place it would stand at."},
        {.name = "chance",
         .type = ValueType::number,
         .required = true,
         .most = 1,
         .meaning = "Chance that it comes within the horizon."},
        {.name = "year",
         .type = ValueType::whole,
         .unit = Unit::years,
         .required = true,
         .most = 100,
         .meaning = "Years from now."},
        {.name = "links",
         .type = ValueType::whole,
         .least = 1,
         .most = 1000,
         .fallback = "1",
         .source = "one link where no number is given",
         .meaning = "Links it would want."},
    };
    static const Record record = {"a future building", "growth.buildings[]", keys};
    return record;
}

std::vector<const Record*> all_records() {
    std::vector<const Record*> records;
    std::vector<const Record*> waiting = {&site_record()};
    while (!waiting.empty()) {
        const Record* record = waiting.back();
        waiting.pop_back();
        if (std::find(records.begin(), records.end(), record) != records.end()) continue;
        records.push_back(record);
        for (auto key = record->keys.rbegin(); key != record->keys.rend(); ++key) {
            if (key->record != nullptr) waiting.push_back(key->record);
        }
    }
    records.push_back(&range_record());
    return records;
}

}  // namespace spadework::site_file
