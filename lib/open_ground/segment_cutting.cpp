#include "open_ground/segment_cutting.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include <fmt/format.h>

#include "rates/opening_rates.hpp"

namespace spadework::open_ground {

namespace {

/// A polyline on the plane that can be asked what lies at a distance along it.
class Course {
public:
    Course(const Segment& segment, const LocalPlane& plane) {
        for (const Position& at : segment.polyline) {
            points_.push_back(plane.to_plane(at));
            const double step = points_.size() < 2 ? 0
                                                   : std::hypot(points_.back().x - points_[points_.size() - 2].x,
                                                                points_.back().y - points_[points_.size() - 2].y);
            reached_.push_back(reached_.empty() ? 0 : reached_.back() + step);
        }
    }

    [[nodiscard]] double metres() const { return reached_.back(); }
    [[nodiscard]] const std::vector<Position>& points() const { return points_; }
    [[nodiscard]] double reached(std::size_t point) const { return reached_[point]; }

    [[nodiscard]] Position at(double metres) const {
        std::size_t i = 1;
        while (i + 1 < points_.size() && reached_[i] < metres)
            ++i;
        const double step = reached_[i] - reached_[i - 1];
        const double share = step > 0 ? std::clamp((metres - reached_[i - 1]) / step, 0.0, 1.0) : 0;
        return {points_[i - 1].x + share * (points_[i].x - points_[i - 1].x),
                points_[i - 1].y + share * (points_[i].y - points_[i - 1].y)};
    }

private:
    std::vector<Position> points_;
    std::vector<double> reached_;
};

/// Part of a course that lies in one zone, in metres along it.
struct Part {
    double begin = 0;
    double end = 0;
    Zone zone;
};

/// The course cut where its overlays change. Parts too short to count are left to the one before.
std::vector<Part> parts_by_overlays(const Course& course, const GroundMap& ground) {
    std::vector<Part> parts;
    const std::vector<Position>& points = course.points();
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        for (const Run& run : ground.runs_of({points[i], points[i + 1]})) {
            const double end = course.reached(i) + std::hypot(run.to.x - points[i].x, run.to.y - points[i].y);
            if (!parts.empty() && parts.back().zone.overlays == run.zone.overlays) {
                parts.back().end = end;
            } else {
                parts.push_back({parts.empty() ? 0 : parts.back().end, end, run.zone});
            }
        }
    }
    if (!parts.empty()) parts.back().end = course.metres();
    return parts;
}

/// One piece of a segment, by distances along its course and its own length.
struct Cut {
    double metres = 0;        ///< Along the course, on the plane.
    std::int64_t length = 0;  ///< From the segment's start, in millimetres of its length.
};

/// Pieces of a segment cut at these points, in order. The pieces' lengths add up to the segment's.
std::vector<Segment> pieces_of(MapSheet& sheet, const Segment& whole, const Course& course,
                               const std::vector<Cut>& cuts) {
    std::vector<Segment> pieces;
    const LocalPlane& plane = sheet.ground().plane();
    Cut begin;
    PlaceIndex from = whole.from;
    Position from_at = whole.polyline.front();
    for (std::size_t i = 0; i <= cuts.size(); ++i) {
        const bool last = i == cuts.size();
        const Cut end = last ? Cut{course.metres(), whole.length.millimetres()} : cuts[i];
        Segment piece = whole;
        piece.id = sheet.unused_segment_id(fmt::format("{}.{}", whole.id, i + 1));
        piece.from = from;
        piece.to = last ? whole.to : sheet.add_place(fmt::format("{} cut {}", whole.id, i + 1), course.at(end.metres));
        piece.length = Length::from_millimetres(end.length - begin.length);
        piece.polyline = {from_at};
        for (std::size_t p = 1; p + 1 < course.points().size(); ++p) {
            if (course.reached(p) > begin.metres && course.reached(p) < end.metres)
                piece.polyline.push_back(plane.from_plane(course.points()[p]));
        }
        from_at = last ? whole.polyline.back() : sheet.scenario().places[static_cast<std::size_t>(piece.to)].at;
        piece.polyline.push_back(from_at);
        from = piece.to;
        begin = end;
        pieces.push_back(std::move(piece));
    }
    return pieces;
}

void keep_charges_on_longest(std::vector<Segment>& pieces) {
    const auto longest = std::max_element(pieces.begin(), pieces.end(),
                                          [](const Segment& a, const Segment& b) { return a.length < b.length; });
    for (auto piece = pieces.begin(); piece != pieces.end(); ++piece) {
        if (piece != longest) piece->charges.clear();
    }
}

/// Cuts at the ends of all parts but the last, none within a millimetre of another.
std::vector<Cut> cuts_between(std::vector<Part>& parts, const Segment& segment, double metres) {
    std::vector<Cut> cuts;
    const auto length = static_cast<double>(segment.length.millimetres());
    for (std::size_t i = 0; i + 1 < parts.size();) {
        const std::int64_t at = std::llround(length * parts[i].end / metres);
        const std::int64_t before = cuts.empty() ? 0 : cuts.back().length;
        if (at <= before || at >= segment.length.millimetres()) {
            parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(at <= before ? i : i + 1));
            continue;
        }
        cuts.push_back({parts[i].end, at});
        ++i;
    }
    return cuts;
}

void price_by(MapSheet& sheet, const Zone& zone, Segment& piece) {
    piece.ground = sheet.ground_in(zone, piece.ground);
    const std::vector<FixedCharge> charges = sheet.charges_in(zone);
    piece.charges.insert(piece.charges.end(), charges.begin(), charges.end());
}

/// The obstacle in which the building or hub at a place stands, or -1.
int own_obstacle(const MapSheet& sheet, PlaceIndex place) {
    const PlaceKind kind = sheet.scenario().places[static_cast<std::size_t>(place)].kind;
    if (kind != PlaceKind::building && kind != PlaceKind::hub) return -1;
    return sheet.ground().obstacle_at(sheet.at(place));
}

/// The first obstacle that a segment enters and that bars it, or -1.
int obstacle_entered(const MapSheet& sheet, const Segment& segment) {
    const Course course(segment, sheet.ground().plane());
    const std::vector<int> own = {own_obstacle(sheet, segment.from), own_obstacle(sheet, segment.to)};
    for (std::size_t i = 0; i + 1 < course.points().size(); ++i) {
        for (const Run& run : sheet.ground().runs_of({course.points()[i], course.points()[i + 1]}, own)) {
            const int obstacle = run.zone.obstacle;
            if (obstacle >= 0 && sheet.scenario().areas[static_cast<std::size_t>(obstacle)].bars_segments) {
                return obstacle;
            }
        }
    }
    return -1;
}

/// The smallest step, in millimetres, at whose multiples a segment can be cut without changing what any method costs;
/// nothing where there is none, or where the pieces would differ from the whole for another reason.
std::optional<std::int64_t> exact_step(const Scenario& scenario, const Segment& segment) {
    if (!segment.ban.empty() || segment.duct_room || segment.pole_line || !segment.charges.empty()) return std::nullopt;
    constexpr std::int64_t thousandths_and_millimetres = 1'000'000;
    const auto& methods = scenario.grounds[static_cast<std::size_t>(segment.ground)].methods;
    std::int64_t step = 1;
    const OpeningMethod* plain = nullptr;
    for (const OpeningMethod& method : methods) {
        if (method.set_up > Money()) continue;
        const std::int64_t price = groundworks_per_metre(method, scenario.labour).thousandths();
        step = std::lcm(step, thousandths_and_millimetres / std::gcd(price, thousandths_and_millimetres));
        if (plain == nullptr || price < groundworks_per_metre(*plain, scenario.labour).thousandths()) plain = &method;
    }
    if (plain == nullptr) return std::nullopt;
    const auto never_better = [&](const OpeningMethod& method) {
        if (method.set_up == Money()) return true;
        const Money dug = amount(groundworks_per_metre(method, scenario.labour), segment.length) + method.set_up;
        return dug >= amount(groundworks_per_metre(*plain, scenario.labour), segment.length) &&
               passage_per_metre(method, scenario.labour) >= passage_per_metre(*plain, scenario.labour);
    };
    if (!std::all_of(methods.begin(), methods.end(), never_better)) return std::nullopt;
    return step;
}

/// Cuts at the first whole step at or behind each multiple of the spacing that is within reach of open ground.
std::vector<Cut> cuts_beside(const MapSheet& sheet, const Segment& segment, const Course& course, Length spacing) {
    std::vector<Cut> cuts;
    const auto step = exact_step(sheet.scenario(), segment);
    if (!step || *step > spacing.millimetres() / 2) return cuts;
    const std::int64_t stride = (spacing.millimetres() + *step - 1) / *step * *step;
    const double reach = sheet.scenario().rules.open_ground.reach.metres();
    const std::int64_t whole = segment.length.millimetres();
    for (std::int64_t at = stride; at + stride / 4 < whole; at += stride) {
        const double metres = course.metres() * static_cast<double>(at) / static_cast<double>(whole);
        const Position point = course.at(metres);
        const bool near =
            sheet.ground().zone_at(point).may_be_dug() || !sheet.ground().open_ground_near(point, reach).empty();
        if (near) cuts.push_back({metres, at});
    }
    return cuts;
}

std::string name_of(const Area& area) {
    return area.name.empty() || area.name == area.id ? area.id : fmt::format("{} ({})", area.id, area.name);
}

}  // namespace

void bar_segments(MapSheet& sheet) {
    for (std::size_t i = 0; i < sheet.scenario().segments.size(); ++i) {
        Segment segment = sheet.scenario().segments[i];
        if (!segment.ban.empty()) continue;
        const int obstacle = obstacle_entered(sheet, segment);
        if (obstacle < 0) continue;
        segment.ban = "enters the obstacle " + name_of(sheet.scenario().areas[static_cast<std::size_t>(obstacle)]);
        sheet.facts().barred.push_back({segment.id, segment.ban});
        sheet.replace(static_cast<SegmentIndex>(i), {std::move(segment)});
    }
}

void cut_at_overlays(MapSheet& sheet) {
    const std::size_t count = sheet.scenario().segments.size();
    for (std::size_t i = 0; i < count; ++i) {
        const Segment whole = sheet.scenario().segments[i];
        const Course course(whole, sheet.ground().plane());
        std::vector<Part> parts = parts_by_overlays(course, sheet.ground());
        const bool changed =
            std::any_of(parts.begin(), parts.end(), [](const Part& p) { return !p.zone.overlays.empty(); });
        if (!changed) continue;
        const std::vector<Cut> cuts = cuts_between(parts, whole, course.metres());
        std::vector<Segment> pieces =
            cuts.empty() ? std::vector<Segment>{whole} : pieces_of(sheet, whole, course, cuts);
        if (!cuts.empty()) {
            keep_charges_on_longest(pieces);
            ++sheet.facts().segments_cut;
        }
        for (std::size_t p = 0; p < pieces.size(); ++p)
            price_by(sheet, parts[p].zone, pieces[p]);
        sheet.replace(static_cast<SegmentIndex>(i), std::move(pieces));
    }
}

void cut_beside_open_ground(MapSheet& sheet, Length spacing) {
    const std::size_t count = sheet.scenario().segments.size();
    for (std::size_t i = 0; i < count; ++i) {
        const Segment whole = sheet.scenario().segments[i];
        const Course course(whole, sheet.ground().plane());
        const std::vector<Cut> cuts = cuts_beside(sheet, whole, course, spacing);
        if (cuts.empty()) continue;
        sheet.replace(static_cast<SegmentIndex>(i), pieces_of(sheet, whole, course, cuts));
        ++sheet.facts().segments_cut;
    }
}

}  // namespace spadework::open_ground
