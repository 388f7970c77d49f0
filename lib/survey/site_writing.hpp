#pragma once

#include <string>
#include <vector>

#include "drawn_map/drawn_map.hpp"
#include "survey/findings.hpp"
#include "survey/surveyed_site.hpp"
#include "units/money.hpp"

namespace spadework::survey {

/// What stands in the site file beside the map. The sections are texts of YAML as a file of that section holds them.
struct SiteHead {
    std::string name;
    std::string note;  ///< May be empty.
    Currency currency;
    std::string link_rate = "1G";        ///< Of the one link that each building gets.
    std::vector<std::string> made_from;  ///< A line each for the comment at the top.
    std::string grounds;
    std::string catalogue;
    std::string labour;
    std::string rules;
    bool invented_prices = true;  ///< Some of the sections are the shipped ones: the file says so.
};

/// The whole site file, with comments: the same survey always gives the same bytes.
std::string site_file_text(const SurveyedSite& site, const SiteHead& head);

/// Whether the maps come from OpenStreetMap, by their format or by ids such as "way/5964337".
bool is_open_street_map(const std::vector<drawn_map::DrawnMap>& maps);

/// The attribution that data from OpenStreetMap asks for.
inline constexpr const char* open_street_map_note =
    "Map data (c) OpenStreetMap contributors, available under the Open Database License (ODbL) 1.0: "
    "https://www.openstreetmap.org/copyright";

}  // namespace spadework::survey
