#include "open_ground/map_sheet.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "geometry/geodesic.hpp"

namespace spadework::open_ground {

namespace {

std::string unused(const std::string& id, std::unordered_set<std::string>& taken) {
    std::string free = id;
    for (int i = 2; !taken.insert(free).second; ++i)
        free = fmt::format("{} ({})", id, i);
    return free;
}

/// Never nothing: a segment has a length.
Length length_of(const std::vector<Position>& polyline, CoordinateSystem coordinates) {
    return std::max(Length::from_metres(metres_along(polyline, coordinates)), Length::from_millimetres(1));
}

}  // namespace

MapSheet::MapSheet(Scenario& scenario, const GroundMap& ground) : scenario_(scenario), ground_(ground) {
    for (const Place& place : scenario_.places) {
        at_.push_back(ground_.plane().to_plane(place.at));
        place_ids_.insert(place.id);
    }
    for (const Segment& segment : scenario_.segments)
        segment_ids_.insert(segment.id);
}

PlaceIndex MapSheet::add_place(const std::string& id, const Position& on_plane) {
    Place place;
    place.id = unused(id, place_ids_);
    place.name = place.id;
    place.at = ground_.plane().from_plane(on_plane);
    place.enclosure_allowed = false;
    place.enclosure_reason = "not a place of the map as given";
    place.laid_out = true;
    scenario_.places.push_back(std::move(place));
    at_.push_back(on_plane);
    return static_cast<PlaceIndex>(at_.size() - 1);
}

std::string MapSheet::unused_segment_id(const std::string& id) {
    return unused(id, segment_ids_);
}

void MapSheet::add_step(PlaceIndex from, PlaceIndex to, int ground, int area_number) {
    Segment step;
    const auto& places = scenario_.places;
    const Place& a = places[static_cast<std::size_t>(from)];
    const Place& b = places[static_cast<std::size_t>(to)];
    step.id = unused_segment_id(fmt::format("{} - {}", a.id, b.id));
    step.from = from;
    step.to = to;
    step.polyline = {a.at, b.at};
    step.length = length_of(step.polyline, scenario_.coordinates);
    step.ground = ground;
    step.area = area_number;
    step.name = "up to open ground";
    scenario_.segments.push_back(std::move(step));
}

void MapSheet::add_segment(const std::string& id, PlaceIndex from, PlaceIndex to, const Zone& zone) {
    const Area& open = area(zone.open);
    const auto& places = scenario_.places;
    Segment line;
    line.id = unused_segment_id(id);
    line.from = from;
    line.to = to;
    line.polyline = {places[static_cast<std::size_t>(from)].at, places[static_cast<std::size_t>(to)].at};
    line.length = length_of(line.polyline, scenario_.coordinates);
    line.ground = ground_in(zone, open.ground.value_or(0));
    line.charges = charges_in(zone);
    line.area = zone.open;
    line.name = "across " + (open.name.empty() ? open.id : open.name);
    scenario_.segments.push_back(std::move(line));
    ++scenario_.open_ground.lines;
}

bool MapSheet::add_line(PlaceIndex from, PlaceIndex to, const std::vector<int>& passed) {
    const auto [known, is_new] = lines_.try_emplace(std::minmax(from, to), false);
    if (!is_new) return known->second;
    const std::vector<Run> runs = ground_.runs_of({at(from), at(to)}, passed);
    const auto can_be_dug = [](const Run& run) { return run.zone.may_be_dug(); };
    if (runs.empty() || !std::all_of(runs.begin(), runs.end(), can_be_dug)) return false;
    known->second = true;
    const std::string id = fmt::format("{} - {}", scenario_.places[static_cast<std::size_t>(from)].id,
                                       scenario_.places[static_cast<std::size_t>(to)].id);
    PlaceIndex begin = from;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const bool last = i + 1 == runs.size();
        const PlaceIndex end = last ? to : add_place(fmt::format("{} at border {}", id, i + 1), runs[i].to);
        add_segment(runs.size() == 1 ? id : fmt::format("{}.{}", id, i + 1), begin, end, runs[i].zone);
        begin = end;
    }
    return true;
}

void MapSheet::replace(SegmentIndex segment, std::vector<Segment> pieces) {
    scenario_.segments[static_cast<std::size_t>(segment)] = std::move(pieces.front());
    scenario_.segments.insert(scenario_.segments.end(), std::make_move_iterator(pieces.begin() + 1),
                              std::make_move_iterator(pieces.end()));
}

int MapSheet::ground_in(const Zone& zone, int ground) {
    double smallest = -1;
    std::vector<int> dear;
    UnitPrice extra;
    for (const int overlay : zone.overlays) {
        const double size = ground_.square_metres(overlay);
        if (area(overlay).ground && (smallest < 0 || size < smallest)) {
            smallest = size;
            ground = *area(overlay).ground;
        }
        if (area(overlay).extra_per_metre > UnitPrice()) {
            dear.push_back(overlay);
            extra = extra + area(overlay).extra_per_metre;
        }
    }
    if (dear.empty()) return ground;
    const auto [known, is_new] =
        dearer_grounds_.try_emplace({ground, dear}, static_cast<int>(scenario_.grounds.size()));
    if (!is_new) return known->second;
    Ground dearer = scenario_.grounds[static_cast<std::size_t>(ground)];
    for (std::size_t i = 0; i < dear.size(); ++i) {
        const Area& overlay = area(dear[i]);
        dearer.id += (i == 0 ? " in " : " and ") + overlay.id;
        dearer.name += (i == 0 ? " in " : " and ") + (overlay.name.empty() ? overlay.id : overlay.name);
    }
    for (OpeningMethod& method : dearer.methods)
        method.material_per_metre = method.material_per_metre + extra;
    const auto same_id = [&dearer](const Ground& other) { return other.id == dearer.id; };
    while (std::any_of(scenario_.grounds.begin(), scenario_.grounds.end(), same_id))
        dearer.id += "'";
    scenario_.grounds.push_back(std::move(dearer));
    return known->second;
}

std::vector<FixedCharge> MapSheet::charges_in(const Zone& zone) const {
    std::vector<FixedCharge> charges;
    for (const int overlay : zone.overlays)
        charges.insert(charges.end(), area(overlay).charges.begin(), area(overlay).charges.end());
    return charges;
}

}  // namespace spadework::open_ground
