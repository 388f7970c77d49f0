#include "site_file/site_checks.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "open_ground/open_ground.hpp"
#include "rates/duct_fill.hpp"
#include "scenario/connectivity.hpp"
#include "scenario/money_range.hpp"
#include "site_file/section_readers.hpp"

namespace spadework::site_file {

namespace {

const char* name_of(PlaceKind kind) {
    switch (kind) {
        case PlaceKind::junction:
            return "junction";
        case PlaceKind::handhole:
            return "handhole";
        case PlaceKind::pole:
            return "pole";
        case PlaceKind::building:
            return "building";
        case PlaceKind::hub:
            return "hub";
    }
    return "place";
}

void settle_hub(Reading& reading, Draft& draft) {
    auto& places = draft.scenario.places;
    const auto hub = static_cast<std::size_t>(draft.scenario.hub.place);
    for (std::size_t i = 0; i < places.size(); ++i) {
        if (places[i].kind != PlaceKind::hub || i == hub) continue;
        reading.error(
            draft.place_positions[i],
            fmt::format("place {} is of kind hub, but the hub is at {}", quoted(places[i].id), quoted(places[hub].id)),
            "one hub");
    }
    places[hub].kind = PlaceKind::hub;
}

void settle_buildings(Reading& reading, Draft& draft) {
    auto& scenario = draft.scenario;
    std::vector<int> standing(scenario.places.size(), -1);
    for (std::size_t i = 0; i < scenario.buildings.size(); ++i) {
        const auto at = static_cast<std::size_t>(scenario.buildings[i].place);
        const std::string building = quoted(scenario.buildings[i].id);
        if (draft.has_hub && scenario.buildings[i].place == scenario.hub.place) {
            reading.error(
                draft.building_positions[i],
                fmt::format("building {} stands at {}, the hub's place", building, quoted(scenario.places[at].id)),
                "a place of its own");
        } else if (standing[at] >= 0) {
            const auto first = static_cast<std::size_t>(standing[at]);
            reading.error(draft.building_positions[i],
                          fmt::format("building {} stands at {}, where building {} stands already, from {}", building,
                                      quoted(scenario.places[at].id), quoted(scenario.buildings[first].id),
                                      to_text(draft.building_positions[first])),
                          "a place of its own, or one building with the links of both");
        } else {
            standing[at] = static_cast<int>(i);
            scenario.places[at].kind = PlaceKind::building;
        }
    }
}

std::string cut_off_text(const CutOffBuilding& cut, const Scenario& scenario) {
    const auto place = [&scenario](PlaceIndex index) {
        return quoted(scenario.places[static_cast<std::size_t>(index)].id);
    };
    std::string text = fmt::format(
        "building {} is cut off from the hub: its part of the map ({} place{}) is {:.1f} m from the rest, between {} "
        "and {}",
        quoted(scenario.buildings[static_cast<std::size_t>(cut.building)].id), cut.places_in_part,
        cut.places_in_part == 1 ? "" : "s", cut.metres_from_rest, place(cut.near_end), place(cut.far_end));
    if (cut.banned_between) {
        const Segment& banned = scenario.segments[static_cast<std::size_t>(*cut.banned_between)];
        text += fmt::format("; segment {} would join them but is banned ({})", quoted(banned.id), banned.ban);
    }
    return text;
}

void report_too_large_sums(const SourcePosition& where, Reading& reading) {
    reading.error(where, "lengths, counts and prices whose sum could grow too large to count",
                  "smaller ones; a total must stay below 10^17 minor units");
}

void check_strand_use(const Fields& site, Reading& reading, const Scenario& scenario) {
    if (scenario.rules.either_strand_use) return;
    const bool duplex = scenario.rules.strand_use == StrandUse::duplex;
    const int strands = duplex ? 2 : 1;
    const std::string use = duplex ? "duplex" : "bidirectional";
    const auto& optics = scenario.catalogue.optics;
    const auto& cords = scenario.catalogue.patch_cords;
    const auto fits = [&](const OpticProduct& optic) { return optic.strand_use == scenario.rules.strand_use; };
    if (!optics.empty() && std::none_of(optics.begin(), optics.end(), fits)) {
        reading.error(site.position("catalogue"), fmt::format("no {} optic in the catalogue", use),
                      fmt::format("an optic for rules.strand-use {}", use));
    }
    const auto joins = [&](const PatchCordProduct& cord) { return cord.strands == strands; };
    if (!cords.empty() && std::none_of(cords.begin(), cords.end(), joins)) {
        reading.error(site.position("catalogue"),
                      fmt::format("no patch cord with strands: {} in the catalogue", strands),
                      fmt::format("a patch cord for rules.strand-use {}", use));
    }
}

}  // namespace

void settle_places(Reading& reading, Draft& draft) {
    if (draft.has_hub) settle_hub(reading, draft);
    settle_buildings(reading, draft);
    for (std::size_t i = 0; i < draft.scenario.places.size(); ++i) {
        Place& place = draft.scenario.places[i];
        const auto& kinds = draft.enclosure_kinds;
        const bool by_kind = std::find(kinds.begin(), kinds.end(), static_cast<int>(place.kind)) != kinds.end();
        place.enclosure_allowed = draft.enclosure_given[i].value_or(by_kind);
        if (!place.enclosure_allowed && place.enclosure_reason.empty()) {
            place.enclosure_reason = draft.enclosure_given[i]
                                         ? "not allowed by the place"
                                         : fmt::format("not allowed by the rules at a {}", name_of(place.kind));
        }
    }
}

void settle_duct_room(Reading& reading, Draft& draft) {
    const Scenario& scenario = draft.scenario;
    const double thickest = thickest_cable_mm(scenario.catalogue);
    for (Segment& segment : draft.scenario.segments) {
        if (!segment.duct_bore) continue;
        const int said = segment.duct_room.value_or(most_room_in_a_duct);
        const int room = room_by_fill(*segment.duct_bore, thickest, scenario.rules.duct_fill, said);
        segment.duct_room = room;
        if (room >= said || said == most_room_in_a_duct) continue;
        std::vector<double> cables = segment.duct_bore->cable_diameters_mm;
        cables.insert(cables.end(), static_cast<std::size_t>(room) + 1, thickest);
        reading.warning(
            draft.segments.position_of(segment.id),
            fmt::format(
                "the duct in segment {} is said to have room for {} cables; rules.duct-fill leaves room for {}, as "
                "{} in it with the catalogue's thickest of {:.1f} mm fill {:.1f} % of {} %",
                quoted(segment.id), said, room, cables.size(), thickest,
                100 * duct_fill(segment.duct_bore->inner_diameter_mm, cables),
                fill_limit(cables.size(), scenario.rules.duct_fill).percent()),
            fmt::format("room: {}, which counts here", room));
    }
}

void check_connections(const Scenario& scenario, Reading& reading, const Draft& draft) {
    for (const CutOffBuilding& cut : cut_off_buildings(scenario)) {
        const std::string& id = scenario.buildings[static_cast<std::size_t>(cut.building)].id;
        const auto number = static_cast<std::size_t>(draft.buildings.number_of(id));
        reading.error(draft.building_positions[number], cut_off_text(cut, scenario), "a segment that joins them");
    }
}

void work_in_areas(Reading& reading, Draft& draft) {
    Scenario& scenario = draft.scenario;
    if (const std::string problem = open_ground::problem_of_lattice(scenario); !problem.empty()) {
        reading.error(draft.open_ground_position, problem, "a wider spacing, for at most 50000 points");
        return;
    }
    scenario = open_ground::opened(std::move(scenario));
    for (const BarredSegment& barred : scenario.open_ground.barred) {
        reading.warning(draft.segments.position_of(barred.id),
                        fmt::format("segment {} is barred: it {}", quoted(barred.id), barred.reason),
                        "a way around it, or 'bars-segments: false' where a way leads through");
    }
    check_connections(scenario, reading, draft);
    if (!totals_can_be_counted(scenario)) report_too_large_sums(draft.open_ground_position, reading);
}

void check_prices(const Fields& site, Reading& reading, const Draft& draft) {
    const Scenario& scenario = draft.scenario;
    check_strand_use(site, reading, scenario);
    const auto& segments = scenario.segments;
    const bool has_poles = std::any_of(segments.begin(), segments.end(), [](const Segment& s) { return s.pole_line; });
    const bool has_ducts =
        std::any_of(segments.begin(), segments.end(), [](const Segment& s) { return s.duct_room.has_value(); });
    if (has_poles && !site.has("pole-line")) {
        reading.warning(site.position(), "there are pole lines, but no section 'pole-line' says what hanging costs",
                        "that section; without it only the installer's hours count");
    }
    if (has_ducts && !site.has("existing-duct")) {
        reading.warning(site.position(),
                        "there are existing ducts, but no section 'existing-duct' says what using them costs",
                        "that section; without it only the installer's hours count");
    }
    if (!totals_can_be_counted(scenario)) report_too_large_sums(site.position(), reading);
}

}  // namespace spadework::site_file
