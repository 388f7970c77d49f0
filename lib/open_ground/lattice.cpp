#include "open_ground/lattice.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

namespace spadework::open_ground {

namespace {

constexpr double wanted_points = 1000;

/// Square metres of all open ground, overlaps counted twice.
double square_metres(const Scenario& scenario, const GroundMap& ground) {
    double sum = 0;
    for (std::size_t i = 0; i < scenario.areas.size(); ++i) {
        if (scenario.areas[i].use == AreaUse::open_ground) sum += ground.square_metres(static_cast<int>(i));
    }
    return sum;
}

/// The least of 1, 1.5, 2, 3, 4, 5, 6 and 8 times a power of ten that is not less.
double plain_figure(double least) {
    constexpr std::array figures = {1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0};
    double power = 1;
    while (power * 10 < least)
        power *= 10;
    for (const double figure : figures) {
        if (figure * power >= least) return figure * power;
    }
    return least;
}

/// Where the rings cross a horizontal line, ascending.
std::vector<double> crossings(const std::vector<std::vector<Position>>& rings, double north) {
    std::vector<double> easts;
    for (const Stretch& side : sides_of(rings)) {
        if ((side.from.y > north) == (side.to.y > north)) continue;
        easts.push_back(side.from.x + (north - side.from.y) / (side.to.y - side.from.y) * (side.to.x - side.from.x));
    }
    std::sort(easts.begin(), easts.end());
    return easts;
}

}  // namespace

std::vector<GridStep> grid_steps(int directions) {
    const int farthest = directions == 8 ? 1 : directions == 16 ? 2 : 3;
    std::vector<GridStep> steps;
    for (int north = 0; north <= farthest; ++north) {
        for (int east = -farthest; east <= farthest; ++east) {
            const bool half = north > 0 || east > 0;
            if (half && std::gcd(east, north) == 1) steps.push_back({east, north});
        }
    }
    return steps;
}

double longest_detour(int directions) {
    std::vector<double> angles;
    for (const GridStep& step : grid_steps(directions))
        angles.push_back(std::atan2(step.north, step.east));
    std::sort(angles.begin(), angles.end());
    double widest = 0;
    for (std::size_t i = 0; i + 1 < angles.size(); ++i)
        widest = std::max(widest, angles[i + 1] - angles[i]);
    return 1 / std::cos(widest / 2) - 1;
}

Length spacing_of(const Scenario& scenario, const GroundMap& ground) {
    if (scenario.rules.open_ground.spacing > Length()) return scenario.rules.open_ground.spacing;
    return Length::from_metres(plain_figure(std::sqrt(square_metres(scenario, ground) / wanted_points)));
}

double expected_points(const Scenario& scenario, const GroundMap& ground) {
    const double spacing = spacing_of(scenario, ground).metres();
    return square_metres(scenario, ground) / (spacing * spacing);
}

Lattice::Lattice(MapSheet& sheet, Length spacing, int directions) : sheet_(sheet), spacing_(spacing.metres()) {
    for (std::size_t area = 0; area < sheet_.scenario().areas.size(); ++area) {
        if (sheet_.scenario().areas[area].use == AreaUse::open_ground) add_points(static_cast<int>(area));
    }
    add_lines(directions);
}

/// The first grid line at or behind a position.
std::int64_t Lattice::first_line(double from) const {
    return static_cast<std::int64_t>(std::ceil(from / spacing_));
}

void Lattice::add_points(int area) {
    const Box& box = sheet_.ground().box(area);
    for (std::int64_t row = first_line(box.low); static_cast<double>(row) * spacing_ <= box.high; ++row)
        add_row(area, row);
}

void Lattice::add_row(int area, std::int64_t row) {
    const Box& box = sheet_.ground().box(area);
    const std::string& id = sheet_.scenario().areas[static_cast<std::size_t>(area)].id;
    const double north = static_cast<double>(row) * spacing_;
    // The northernmost row lies on the border, where a line crosses no side.
    const double crossed = std::min(north, box.high - on_border_metres);
    const std::vector<double> easts = crossings(sheet_.ground().rings(area), crossed);
    for (std::size_t i = 0; i + 1 < easts.size(); i += 2) {
        for (std::int64_t column = first_line(easts[i]); static_cast<double>(column) * spacing_ <= easts[i + 1];
             ++column) {
            const Position at{static_cast<double>(column) * spacing_, north};
            const Zone zone = sheet_.ground().zone_at(at);
            if (zone.open != area || !zone.may_be_dug() || !sheet_.charges_in(zone).empty()) continue;
            points_[{column, row}] = sheet_.add_place(
                fmt::format("{} {},{}", id, column - first_line(box.left) + 1, row - first_line(box.low) + 1), at);
        }
    }
}

void Lattice::add_lines(int directions) {
    const std::vector<GridStep> steps = grid_steps(directions);
    for (const auto& [at, place] : points_) {
        for (const GridStep& step : steps) {
            const auto other = points_.find({at.first + step.east, at.second + step.north});
            if (other != points_.end()) sheet_.add_line(place, other->second);
        }
    }
}

void Lattice::join(PlaceIndex place) {
    const Position at = sheet_.at(place);
    const double reach = 1.5 * spacing_;
    for (std::int64_t row = first_line(at.y - reach); static_cast<double>(row) * spacing_ <= at.y + reach; ++row) {
        for (std::int64_t column = first_line(at.x - reach); static_cast<double>(column) * spacing_ <= at.x + reach;
             ++column) {
            const auto point = points_.find({column, row});
            if (point != points_.end()) sheet_.add_line(place, point->second);
        }
    }
}

}  // namespace spadework::open_ground
