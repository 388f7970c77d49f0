#include "open_ground/open_ground.hpp"

#include <algorithm>
#include <numeric>

#include <fmt/format.h>

#include "open_ground/gates.hpp"
#include "open_ground/lattice.hpp"
#include "open_ground/segment_cutting.hpp"
#include "open_ground/sight_lines.hpp"
#include "scenario/ordering.hpp"

namespace spadework::open_ground {

namespace {

constexpr double most_points = 50'000;

bool has_open_ground(const Scenario& scenario) {
    return std::any_of(scenario.areas.begin(), scenario.areas.end(),
                       [](const Area& area) { return area.use == AreaUse::open_ground; });
}

/// Which places hang together by segments, each by the lowest number among them.
class Parts {
public:
    explicit Parts(const Scenario& scenario) : above_(scenario.places.size()) {
        std::iota(above_.begin(), above_.end(), 0);
        for (const Segment& segment : scenario.segments) {
            const PlaceIndex a = of(segment.from);
            const PlaceIndex b = of(segment.to);
            above_[static_cast<std::size_t>(std::max(a, b))] = std::min(a, b);
        }
    }

    PlaceIndex of(PlaceIndex place) {
        while (above_[static_cast<std::size_t>(place)] != place) {
            PlaceIndex& above = above_[static_cast<std::size_t>(place)];
            above = above_[static_cast<std::size_t>(above)];
            place = above;
        }
        return place;
    }

private:
    std::vector<PlaceIndex> above_;
};

/// Leaves out laid out places that hang together with no place of the map as given.
void leave_out_what_hangs_loose(Scenario& scenario) {
    Parts parts(scenario);
    std::vector<bool> is_joined(scenario.places.size(), false);
    for (std::size_t i = 0; i < scenario.places.size(); ++i) {
        if (!scenario.places[i].laid_out)
            is_joined[static_cast<std::size_t>(parts.of(static_cast<PlaceIndex>(i)))] = true;
    }
    const auto stays = [&](PlaceIndex place) { return is_joined[static_cast<std::size_t>(parts.of(place))]; };
    std::erase_if(scenario.segments, [&](const Segment& segment) { return !stays(segment.from); });
    std::vector<PlaceIndex> moved_to(scenario.places.size(), -1);
    std::vector<Place> places;
    for (std::size_t i = 0; i < scenario.places.size(); ++i) {
        if (!stays(static_cast<PlaceIndex>(i))) continue;
        moved_to[i] = static_cast<PlaceIndex>(places.size());
        places.push_back(std::move(scenario.places[i]));
    }
    scenario.places = std::move(places);
    for (Segment& segment : scenario.segments) {
        segment.from = moved_to[static_cast<std::size_t>(segment.from)];
        segment.to = moved_to[static_cast<std::size_t>(segment.to)];
    }
    // Hub and buildings stand at places of the map, which come first and stay where they are.
}

void lay_out(MapSheet& sheet, Length spacing) {
    LaidOutGround& facts = sheet.facts();
    facts.spacing = spacing;
    facts.directions = sheet.scenario().rules.open_ground.directions;
    facts.longest_detour = longest_detour(facts.directions);
    cut_beside_open_ground(sheet, spacing);
    const std::vector<Gate> gates = join_places(sheet);
    Lattice lattice(sheet, spacing, facts.directions);
    add_sight_lines(sheet, gates, lattice);
}

/// Counted when all is done: what was left out does not count.
void count_what_was_laid_out(Scenario& scenario) {
    LaidOutGround& facts = scenario.open_ground;
    facts.points = static_cast<int>(std::count_if(scenario.places.begin(), scenario.places.end(),
                                                  [](const Place& place) { return place.laid_out; }));
    facts.lines = static_cast<int>(std::count_if(scenario.segments.begin(), scenario.segments.end(),
                                                 [](const Segment& segment) { return segment.area.has_value(); }));
}

}  // namespace

Scenario opened(Scenario scenario) {
    if (scenario.areas.empty() || scenario.open_ground.directions > 0) return scenario;
    const GroundMap ground(scenario);
    MapSheet sheet(scenario, ground);
    bar_segments(sheet);
    cut_at_overlays(sheet);
    if (has_open_ground(scenario)) {
        lay_out(sheet, spacing_of(scenario, ground));
        leave_out_what_hangs_loose(scenario);
        count_what_was_laid_out(scenario);
    }
    put_in_order(scenario);
    return scenario;
}

std::string problem_of_lattice(const Scenario& scenario) {
    if (!has_open_ground(scenario)) return {};
    const GroundMap ground(scenario);
    const double points = expected_points(scenario, ground);
    if (points <= most_points) return {};
    return fmt::format("a spacing that makes a lattice of {:.0f} points of all open ground", points);
}

}  // namespace spadework::open_ground
