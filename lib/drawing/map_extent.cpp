#include "drawing/map_extent.hpp"

#include <algorithm>

#include "drawing/map_frame.hpp"
#include "scenario/local_plane.hpp"

namespace spadework::drawing {

namespace {

/// The whole map is shown where it is at most so many times as wide and as high as what must be seen.
constexpr double most_growth = 1.5;

}  // namespace

std::vector<Position> extent_with(const Scenario& scenario, std::vector<Position> needed) {
    const LocalPlane plane(scenario.coordinates, needed);
    const Box box = box_around(plane, needed);
    std::vector<Position> all = needed;
    for (const Segment& segment : scenario.segments)
        all.insert(all.end(), segment.polyline.begin(), segment.polyline.end());
    const Box whole = box_around(plane, all);
    const double size = std::max(box.right - box.left, box.high - box.low);
    const bool fits = whole.right - whole.left <= most_growth * std::max(box.right - box.left, size / 2) &&
                      whole.high - whole.low <= most_growth * std::max(box.high - box.low, size / 2);
    return fits ? all : needed;
}

std::vector<Position> plan_extent(const Scenario& scenario, const LayoutResult& result) {
    const auto at = [&](PlaceIndex place) { return scenario.places[static_cast<std::size_t>(place)].at; };
    std::vector<Position> needed = {at(scenario.hub.place)};
    for (const Building& building : scenario.buildings)
        needed.push_back(at(building.place));
    if (!result.plan) return extent_with(scenario, needed);
    for (const PlannedEnclosure& enclosure : result.plan->enclosures)
        needed.push_back(at(enclosure.place));
    for (const Step& step : result.plan->trenches) {
        const Segment& segment = scenario.segments[static_cast<std::size_t>(step.segment)];
        needed.insert(needed.end(), segment.polyline.begin(), segment.polyline.end());
    }
    return extent_with(scenario, needed);
}

std::string plain_id(std::string_view text) {
    constexpr std::size_t longest = 24;
    std::string id;
    for (const char c : text) {
        const bool small = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        const bool capital = c >= 'A' && c <= 'Z';
        if (small) id += c;
        if (capital) id += static_cast<char>(c - 'A' + 'a');
        if (!small && !capital && !id.empty() && id.back() != '-') id += '-';
        if (id.size() >= longest) break;
    }
    while (!id.empty() && id.back() == '-')
        id.pop_back();
    return id.empty() ? "ground" : id;
}

}  // namespace spadework::drawing
