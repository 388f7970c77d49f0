#include "open_ground/support/lawn_site.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <queue>
#include <set>
#include <utility>

namespace spadework::lawn_site {

Scenario bare() {
    Scenario site;
    const auto ground = [](const std::string& id, std::int64_t minor_a_metre) {
        OpeningMethod open_cut;
        open_cut.id = "open cut";
        open_cut.plant_per_metre = UnitPrice::from_money(Money::from_minor(minor_a_metre));
        open_cut.depth = Length::from_metres(0.6);
        return Ground{id, id, {open_cut}};
    };
    site.grounds = {ground("grass", 1000), ground("paving", 4000)};
    site.rules.open_ground.reach = Length::from_metres(3);
    return site;
}

PlaceIndex add_place(Scenario& site, const std::string& id, PlaceKind kind, double x, double y) {
    Place place;
    place.id = id;
    place.name = id;
    place.kind = kind;
    place.at = {x, y};
    site.places.push_back(place);
    return static_cast<PlaceIndex>(site.places.size() - 1);
}

void add_segment(Scenario& site, const std::string& id, PlaceIndex from, PlaceIndex to, int ground,
                 const std::vector<Position>& bends) {
    Segment segment;
    segment.id = id;
    segment.from = from;
    segment.to = to;
    segment.ground = ground;
    segment.polyline = {site.places[static_cast<std::size_t>(from)].at};
    segment.polyline.insert(segment.polyline.end(), bends.begin(), bends.end());
    segment.polyline.push_back(site.places[static_cast<std::size_t>(to)].at);
    double metres = 0;
    for (std::size_t i = 1; i < segment.polyline.size(); ++i)
        metres += std::hypot(segment.polyline[i].x - segment.polyline[i - 1].x,
                             segment.polyline[i].y - segment.polyline[i - 1].y);
    segment.length = Length::from_metres(metres);
    site.segments.push_back(segment);
}

std::vector<Position> box(double left, double low, double right, double high) {
    return {{left, low}, {right, low}, {right, high}, {left, high}};
}

Area& add_area(Scenario& site, const std::string& id, AreaUse use, std::vector<std::vector<Position>> rings) {
    Area area;
    area.id = id;
    area.use = use;
    area.rings = std::move(rings);
    if (use == AreaUse::open_ground) area.ground = grass;
    site.areas.push_back(area);
    return site.areas.back();
}

PlaceIndex place(const Scenario& site, const std::string& id) {
    for (std::size_t i = 0; i < site.places.size(); ++i) {
        if (site.places[i].id == id) return static_cast<PlaceIndex>(i);
    }
    return -1;
}

const Segment* find_segment(const Scenario& site, const std::string& id) {
    const auto found = std::find_if(site.segments.begin(), site.segments.end(),
                                    [&id](const Segment& segment) { return segment.id == id; });
    return found == site.segments.end() ? nullptr : &*found;
}

double least(const Scenario& site, PlaceIndex from, PlaceIndex to,
             const std::function<double(const Segment&)>& measure) {
    std::vector<std::vector<std::pair<PlaceIndex, double>>> steps(site.places.size());
    for (const Segment& segment : site.segments) {
        if (!segment.ban.empty()) continue;
        steps[static_cast<std::size_t>(segment.from)].emplace_back(segment.to, measure(segment));
        steps[static_cast<std::size_t>(segment.to)].emplace_back(segment.from, measure(segment));
    }
    std::vector<double> best(site.places.size(), std::numeric_limits<double>::infinity());
    using Entry = std::pair<double, PlaceIndex>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> waiting;
    waiting.emplace(0, from);
    best[static_cast<std::size_t>(from)] = 0;
    while (!waiting.empty()) {
        const auto [reached, at] = waiting.top();
        waiting.pop();
        if (reached > best[static_cast<std::size_t>(at)]) continue;
        for (const auto& [next, step] : steps[static_cast<std::size_t>(at)]) {
            if (reached + step >= best[static_cast<std::size_t>(next)]) continue;
            best[static_cast<std::size_t>(next)] = reached + step;
            waiting.emplace(reached + step, next);
        }
    }
    return best[static_cast<std::size_t>(to)];
}

namespace {

/// Along a segment, not rounded to millimetres.
double metres_of(const Segment& segment) {
    double metres = 0;
    for (std::size_t i = 1; i < segment.polyline.size(); ++i)
        metres += std::hypot(segment.polyline[i].x - segment.polyline[i - 1].x,
                             segment.polyline[i].y - segment.polyline[i - 1].y);
    return metres;
}

}  // namespace

double least_metres(const Scenario& site, const std::string& from, const std::string& to) {
    return least(site, place(site, from), place(site, to), metres_of);
}

namespace {

/// Whether a point is in a ring, by the angle the ring turns about it: another way than the library's.
bool winds_about(const std::vector<Position>& ring, const Position& at) {
    double angle = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Position& a = ring[i];
        const Position& b = ring[(i + 1) % ring.size()];
        angle += std::atan2((a.x - at.x) * (b.y - at.y) - (a.y - at.y) * (b.x - at.x),
                            (a.x - at.x) * (b.x - at.x) + (a.y - at.y) * (b.y - at.y));
    }
    return std::abs(angle) > 3;
}

double metres_to_ring(const std::vector<Position>& ring, const Position& at) {
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Position& a = ring[i];
        const Position& b = ring[(i + 1) % ring.size()];
        const double squared = (b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y);
        const double share = std::clamp(((at.x - a.x) * (b.x - a.x) + (at.y - a.y) * (b.y - a.y)) / squared, 0.0, 1.0);
        least = std::min(least, std::hypot(a.x + share * (b.x - a.x) - at.x, a.y + share * (b.y - a.y) - at.y));
    }
    return least;
}

}  // namespace

bool inside_by(const Area& area, const Position& at, double margin) {
    bool inside = winds_about(area.rings.front(), at);
    double metres = metres_to_ring(area.rings.front(), at);
    for (std::size_t hole = 1; hole < area.rings.size(); ++hole) {
        inside = inside && !winds_about(area.rings[hole], at);
        metres = std::min(metres, metres_to_ring(area.rings[hole], at));
    }
    return (inside ? metres : -metres) > margin;
}

std::vector<Position> points_along(const Segment& segment, double every) {
    std::vector<Position> points;
    const Position& a = segment.polyline.front();
    const Position& b = segment.polyline.back();
    const int count = std::max(2, static_cast<int>(std::hypot(b.x - a.x, b.y - a.y) / every));
    for (int i = 0; i <= count; ++i) {
        const double share = static_cast<double>(i) / count;
        points.push_back({a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)});
    }
    return points;
}

}  // namespace spadework::lawn_site
