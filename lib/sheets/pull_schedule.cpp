#include "sheets/pull_schedule.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "scenario/local_plane.hpp"

namespace spadework {

namespace {

constexpr int diameters_under_tension = 20;
constexpr int diameters_at_rest = 10;
constexpr double sharp_degrees = 45;
constexpr double usual_tension_n = 2669;  // 600 lbf for most fibre cable, 7 CFR 1755.200

/// The way of a cable as points on a plane in metres, with where each of its steps ends.
struct Way {
    std::vector<Position> points;
    std::vector<std::size_t> step_ends;  ///< Index into points.
    std::vector<PlaceIndex> places;      ///< Where each step ends.
};

void append(const Scenario& scenario, const LocalPlane& plane, const Step& step, PlaceIndex from, Way& way) {
    const Segment& segment = scenario.segments[static_cast<std::size_t>(step.segment)];
    std::vector<Position> line = segment.polyline;
    if (segment.from != from) std::ranges::reverse(line);
    const std::size_t skip = way.points.empty() ? 0 : 1;
    for (std::size_t i = skip; i < line.size(); ++i)
        way.points.push_back(plane.to_plane(line[i]));
    way.step_ends.push_back(way.points.size() - 1);
    way.places.push_back(segment.from == from ? segment.to : segment.from);
}

Way way_of(const Scenario& scenario, const LocalPlane& plane, const PlannedCable& cable) {
    Way way;
    PlaceIndex at = cable.from;
    for (const Step& step : cable.steps) {
        append(scenario, plane, step, at, way);
        at = way.places.back();
    }
    return way;
}

/// Change of direction at a point of the way, degrees from 0 (straight on) to 180.
double turn_at(const Way& way, std::size_t point) {
    const Position& a = way.points[point - 1];
    const Position& b = way.points[point];
    const Position& c = way.points[point + 1];
    const double cross = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
    const double dot = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y);
    if (cross == 0 && dot == 0) return 0;
    return std::abs(std::atan2(cross, dot)) * 180 / std::numbers::pi;
}

bool can_be_reached(const Place& place) {
    return place.kind == PlaceKind::handhole || place.kind == PlaceKind::pole;
}

void count_turns(const Way& way, std::size_t first, std::size_t last, PullStretch& stretch) {
    for (std::size_t point = std::max<std::size_t>(first, 1); point <= last && point + 1 < way.points.size(); ++point) {
        if (point == last || point == first) continue;  // at a pull point the cable is taken out and fed in anew
        const double turn = turn_at(way, point);
        stretch.turned_degrees += turn;
        if (turn >= sharp_degrees) ++stretch.bends;
    }
}

std::vector<PullStretch> stretches_of(const Scenario& scenario, const PlannedCable& cable, const Way& way) {
    std::vector<PullStretch> stretches;
    PullStretch open;
    open.from = cable.from;
    std::size_t first_point = 0;
    for (std::size_t s = 0; s < cable.steps.size(); ++s) {
        open.length += scenario.segments[static_cast<std::size_t>(cable.steps[s].segment)].length;
        const bool ends =
            s + 1 == cable.steps.size() || can_be_reached(scenario.places[static_cast<std::size_t>(way.places[s])]);
        if (!ends) continue;
        open.to = way.places[s];
        count_turns(way, first_point, way.step_ends[s], open);
        stretches.push_back(open);
        first_point = way.step_ends[s];
        open = PullStretch{};
        open.from = way.places[s];
    }
    return stretches;
}

}  // namespace

std::vector<CablePull> pull_schedule(const Scenario& scenario, const Plan& plan) {
    std::vector<Position> positions;
    for (const Place& place : scenario.places)
        positions.push_back(place.at);
    const LocalPlane plane(scenario.coordinates, positions);
    std::vector<CablePull> schedule;
    for (std::size_t c = 0; c < plan.cables.size(); ++c) {
        const PlannedCable& cable = plan.cables[c];
        CablePull pull;
        pull.cable = static_cast<int>(c);
        pull.stretches = stretches_of(scenario, cable, way_of(scenario, plane, cable));
        for (const PullStretch& stretch : pull.stretches)
            pull.longest = std::max(pull.longest, stretch.length);
        const CableProduct& product = scenario.catalogue.cables[static_cast<std::size_t>(cable.product)];
        const double diameter_mm = product.diameter_mm;
        const bool given = product.most_tension_n > 0;
        pull.most_tension_n = given ? product.most_tension_n : usual_tension_n;
        pull.tension_source = given ? "the catalogue" : "7 CFR 1755.200";
        pull.radius_pulling = Length::from_metres(diameter_mm * diameters_under_tension / 1000);
        pull.radius_installed = Length::from_metres(diameter_mm * diameters_at_rest / 1000);
        schedule.push_back(std::move(pull));
    }
    return schedule;
}

}  // namespace spadework
