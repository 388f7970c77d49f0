#include "survey/site_writing.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "site_file/plain_number.hpp"
#include "survey/name_pool.hpp"
#include "survey/yaml_text.hpp"

namespace spadework::survey {

namespace {

constexpr std::size_t most_name_bytes = 9000;  ///< A name may have 10,000 (scenarios/README.md).
constexpr std::size_t positions_a_line = 4;

std::size_t as_index(int number) {
    return static_cast<std::size_t>(number);
}

std::string name_scalar(const std::string& name) {
    return yaml_scalar(cut_short(name, most_name_bytes));
}

class SiteWriter {
public:
    SiteWriter(const SurveyedSite& site, const SiteHead& head) : site_(site), head_(head) {}

    std::string write() {
        write_head();
        write_places();
        write_segments();
        write_areas();
        write_section("grounds", "What a metre of trench takes in each ground.", head_.grounds);
        write_wanted();
        write_section("catalogue", "What can be bought, and for how much.", head_.catalogue);
        write_section("labour", "Hourly rates and working times.", head_.labour);
        write_section("rules", "Allowances, policies and limits.", head_.rules);
        return std::move(text_);
    }

private:
    void write_head() {
        text_ += "# Surveyed by spadework from\n";
        for (const std::string& line : head_.made_from)
            text_ += "#   " + line + "\n";
        text_ +=
            fmt::format("# {} places, {} segments, {} buildings. What was assumed is in the report of the survey.\n",
                        site_.places.size(), site_.segments.size(), site_.buildings);
        if (head_.invented_prices) {
            text_ +=
                "#\n# THE PRICES BELOW ARE INVENTED AND STAND IN FOR YOURS: replace them before you quote. Look at "
                "the\n"
                "# grounds too: where the map states no surface, they are assumed from the kind of way.\n";
        }
        text_ += "format: 1\n";
        text_ += "site: " + name_scalar(head_.name) + "\n";
        if (!head_.note.empty()) text_ += "note: " + name_scalar(head_.note) + "\n";
        text_ += "units: metric\n";
        text_ += "currency: " + head_.currency.code + "\n";
        text_ += "\nmap:\n  coordinates: wgs84\n";
    }

    void write_places() {
        text_ += "  places:\n    # The hub and the buildings, where their cables enter.\n";
        for (std::size_t i = 0; i < site_.places.size(); ++i) {
            const SitePlace& place = site_.places[i];
            if (i == as_index(site_.buildings) + 1)
                text_ += "    # Where ways meet, end or are left, named by longitude and latitude.\n";
            text_ += "    - {id: " + yaml_scalar(place.id);
            if (place.name != place.id) text_ += ", name: " + name_scalar(place.name);
            if (place.kind == PlaceKind::hub) text_ += ", kind: hub";
            if (place.kind == PlaceKind::building) text_ += ", kind: building";
            text_ += ", at: ";
            append_position(text_, place.at);
            text_ += "}\n";
        }
    }

    void write_segments() {
        text_ += "  segments:\n    # Pieces of the ways, in the direction in which they were drawn.\n";
        bool laterals_begun = false;
        for (const SiteSegment& segment : site_.segments) {
            if (segment.ground_choice < 0 && !laterals_begun) {
                text_ += "    # Laterals, straight from the network to the buildings.\n";
                laterals_begun = true;
            }
            write_segment(segment);
        }
    }

    void write_segment(const SiteSegment& segment) {
        const std::string& ground = segment.ground_choice < 0
                                        ? site_.lateral_ground
                                        : site_.ground_choices[as_index(segment.ground_choice)].ground;
        text_ += "    - {id: " + yaml_scalar(segment.id);
        if (!segment.name.empty() && segment.name != segment.id) text_ += ", name: " + name_scalar(segment.name);
        text_ += ", from: " + yaml_scalar(site_.places[as_index(segment.from)].id);
        text_ += ", to: " + yaml_scalar(site_.places[as_index(segment.to)].id);
        text_ += ", ground: " + yaml_scalar(ground);
        if (!segment.ban.empty()) text_ += ", ban: " + name_scalar(segment.ban);
        write_charges(segment.charges, "       ");
        if (segment.polyline.size() > 2) {
            text_ += ",\n       via: ";
            append_positions({segment.polyline.begin() + 1, segment.polyline.end() - 1}, "             ");
        }
        text_ += "}\n";
    }

    void write_charges(const std::vector<FixedCharge>& charges, const char* margin) {
        if (charges.empty()) return;
        text_ += std::string(",\n") + margin + "charges: [";
        for (std::size_t i = 0; i < charges.size(); ++i) {
            text_ += fmt::format("{}{{what: {}, category: {}, amount: {}}}", i == 0 ? "" : ", ",
                                 name_scalar(charges[i].what),
                                 charges[i].category == ChargeCategory::permit ? "permit" : "crossing",
                                 decimal_text(charges[i].amount, head_.currency));
        }
        text_ += "]";
    }

    void append_positions(const std::vector<Position>& positions, const char* margin) {
        text_ += '[';
        for (std::size_t i = 0; i < positions.size(); ++i) {
            if (i > 0) text_ += i % positions_a_line == 0 ? std::string(",\n") + margin : ", ";
            append_position(text_, positions[i]);
        }
        text_ += ']';
    }

    void write_areas() {
        if (site_.areas.empty()) return;
        text_ += "  areas:\n    # Open ground that may be crossed anywhere, and what may not be entered.\n";
        for (const DrawnArea& area : site_.areas) {
            text_ += "    - {id: " + yaml_scalar(area.id);
            if (!area.name.empty() && area.name != area.id) text_ += ", name: " + name_scalar(area.name);
            text_ += std::string(", use: ") + (area.use == AreaUse::open_ground ? "open-ground"
                                               : area.use == AreaUse::obstacle  ? "obstacle"
                                                                                : "overlay");
            if (!area.ground.empty()) text_ += ", ground: " + yaml_scalar(area.ground);
            if (area.extra_per_metre > 0)
                text_ += ", extra-per-length: " + site_file::decimal_text(area.extra_per_metre);
            write_charges(area.charges, "       ");
            text_ += ",\n       border: ";
            append_positions(area.rings.front(), "                ");
            if (area.rings.size() > 1) write_holes(area);
            text_ += "}\n";
        }
    }

    void write_holes(const DrawnArea& area) {
        text_ += ",\n       holes: [";
        for (std::size_t i = 1; i < area.rings.size(); ++i) {
            if (i > 1) text_ += ",\n               ";
            append_positions(area.rings[i], "                ");
        }
        text_ += "]";
    }

    void write_section(const char* key, const char* comment, const std::string& section) {
        text_ += fmt::format("\n# {}\n{}:\n{}", comment, key, indented(section, 2));
    }

    void write_wanted() {
        text_ += "\nhub: {place: " + yaml_scalar(site_.places.front().id) + "}\n";
        text_ +=
            "\n# What is wanted: a link to each building. Add what hangs on it: devices: [{what: camera, count: 2, "
            "watts: 7}]\nbuildings:\n";
        for (int i = 1; i <= site_.buildings; ++i) {
            const SitePlace& place = site_.places[as_index(i)];
            text_ += "  - {id: " + yaml_scalar(place.id);
            if (place.name != place.id) text_ += ", name: " + name_scalar(place.name);
            text_ += ", links: [{rate: " + head_.link_rate + "}]}\n";
        }
    }

    const SurveyedSite& site_;
    const SiteHead& head_;
    std::string text_;
};

bool is_osm_id(const std::string& id) {
    for (const std::string_view kind : {"way/", "node/", "relation/"}) {
        if (id.starts_with(kind) && id.size() > kind.size())
            return std::all_of(id.begin() + static_cast<std::ptrdiff_t>(kind.size()), id.end(),
                               [](char c) { return c >= '0' && c <= '9'; });
    }
    return false;
}

}  // namespace

std::string site_file_text(const SurveyedSite& site, const SiteHead& head) {
    return SiteWriter(site, head).write();
}

bool is_open_street_map(const std::vector<drawn_map::DrawnMap>& maps) {
    return std::any_of(maps.begin(), maps.end(), [](const drawn_map::DrawnMap& map) {
        if (map.format.starts_with("OSM")) return true;
        return std::any_of(map.features.begin(), map.features.end(), [](const drawn_map::Feature& feature) {
            return is_osm_id(feature.id) || is_osm_id(drawn_map::tag_of(feature, "id")) ||
                   is_osm_id(drawn_map::tag_of(feature, "@id"));
        });
    });
}

}  // namespace spadework::survey
