#include "open_ground/gates.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace spadework::open_ground {

namespace {

/// Shorter walls have no door, in metres.
constexpr double least_wall_metres = 1;

double metres(const Position& a, const Position& b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

class Joining {
public:
    explicit Joining(MapSheet& sheet) : sheet_(sheet), ground_at_(sheet.scenario().places.size(), -1) {
        for (const Segment& segment : sheet.scenario().segments) {
            for (const PlaceIndex end : {segment.from, segment.to}) {
                int& ground = ground_at_[static_cast<std::size_t>(end)];
                if (ground < 0) ground = segment.ground;
            }
        }
    }

    std::vector<Gate> run() {
        const std::size_t count = sheet_.scenario().places.size();
        for (std::size_t i = 0; i < count; ++i)
            join(static_cast<PlaceIndex>(i));
        return std::move(gates_);
    }

private:
    [[nodiscard]] const Place& place_at(PlaceIndex place) const {
        return sheet_.scenario().places[static_cast<std::size_t>(place)];
    }

    [[nodiscard]] bool is_terminal(PlaceIndex place) const {
        const PlaceKind kind = place_at(place).kind;
        return kind == PlaceKind::building || kind == PlaceKind::hub;
    }

    void join(PlaceIndex place) {
        const Zone zone = sheet_.ground().zone_at(sheet_.at(place));
        if (zone.may_be_dug()) {
            gates_.push_back({place, place_at(place).laid_out, is_terminal(place)});
        } else if (zone.obstacle < 0) {
            step_to_borders(place);
        } else if (is_terminal(place)) {
            step_to_walls(place, zone.obstacle);
        }
    }

    void step_to_borders(PlaceIndex place) {
        const double reach = sheet_.scenario().rules.open_ground.reach.metres();
        const Position at = sheet_.at(place);
        for (const BorderPoint& border : sheet_.ground().open_ground_near(at, reach)) {
            if (is_clear({at, border.at}, {})) add_step(place, border.at, border.area, 1);
        }
    }

    void step_to_walls(PlaceIndex place, int walls) {
        const Position at = sheet_.at(place);
        int number = 0;
        for (const Stretch& wall : sides_of(sheet_.ground().rings(walls))) {
            if (metres(wall.from, wall.to) < least_wall_metres) continue;
            const Position middle{(wall.from.x + wall.to.x) / 2, (wall.from.y + wall.to.y) / 2};
            const Zone outside = sheet_.ground().zone_at(middle);
            if (outside.may_be_dug() && is_clear({at, middle}, {walls}))
                add_step(place, middle, outside.open, ++number);
        }
    }

    [[nodiscard]] bool is_clear(const Stretch& step, const std::vector<int>& passed) const {
        const std::vector<Run> runs = sheet_.ground().runs_of(step, passed);
        return std::none_of(runs.begin(), runs.end(), [](const Run& run) { return run.zone.obstacle >= 0; });
    }

    void add_step(PlaceIndex place, const Position& to, int area, int number) {
        const Area& open = sheet_.scenario().areas[static_cast<std::size_t>(area)];
        const std::string by = number > 1 ? fmt::format("{} by {} {}", open.id, place_at(place).id, number)
                                          : fmt::format("{} by {}", open.id, place_at(place).id);
        const Gate gate{sheet_.add_place(by, to), place_at(place).laid_out, is_terminal(place)};
        const int beside = ground_at_[static_cast<std::size_t>(place)];
        const int ground = is_terminal(place) || beside < 0 ? open.ground.value_or(0) : beside;
        sheet_.add_step(place, gate.place, ground, area);
        gates_.push_back(gate);
    }

    MapSheet& sheet_;
    std::vector<int> ground_at_;  ///< Of a segment that ends at each place; -1 for none.
    std::vector<Gate> gates_;
};

}  // namespace

std::vector<Gate> join_places(MapSheet& sheet) {
    return Joining(sheet).run();
}

}  // namespace spadework::open_ground
