#pragma once

// The table of keys: every key a site file may hold, with its unit, range, default, the default's source and its
// meaning. One function for each kind of mapping; site_record() is the top.

#include <vector>

#include "site_file/key.hpp"

namespace spadework::site_file {

const Record& site_record();

const Record& map_record();
const Record& place_record();
const Record& place_enclosure_record();
const Record& segment_record();
const Record& segment_duct_record();
const Record& duct_cable_record();
const Record& charge_record();
const Record& area_record();
const Record& geojson_record();
const Record& geojson_grounds_record();
const Record& geojson_bans_record();
const Record& geojson_buildings_record();
const Record& geojson_area_rule_record();
const Record& geojson_area_kind_record();

const Record& ground_record();
const Record& method_record();
const Record& existing_duct_record();
const Record& pole_line_record();

const Record& hub_record();
const Record& hub_device_record();
const Record& building_record();
const Record& link_record();
const Record& device_record();

const Record& catalogue_record();
const Record& cable_record();
const Record& enclosure_record();
const Record& optic_record();
const Record& optical_figures_record();
const Record& attenuator_record();
const Record& building_gear_record();
const Record& hub_gear_record();
const Record& patch_cord_record();
const Record& splicing_record();

const Record& labour_record();
const Record& range_record();
const Record& rules_record();
const Record& loss_record();
const Record& slack_record();
const Record& spare_record();
const Record& duct_fill_record();
const Record& open_ground_record();
const Record& failures_record();
const Record& growth_record();
const Record& future_building_record();

/// Every kind of mapping once, in the order of the file, a mapping before those inside it.
std::vector<const Record*> all_records();

/// A key with a mapping of its own behind it.
constexpr Key part(std::string_view name, const Record& record, std::string_view meaning) {
    return {.name = name, .type = ValueType::record, .record = &record, .meaning = meaning};
}

/// The same, which may stand in a file of its own.
constexpr Key part_or_file(std::string_view name, bool required, const Record& record, std::string_view meaning) {
    Key key = part(name, record, meaning);
    key.required = required;
    key.may_be_file = true;
    return key;
}

}  // namespace spadework::site_file
