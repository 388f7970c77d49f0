#include "drawing/plan_lines.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "rates/opening_rates.hpp"

namespace spadework::drawing {

namespace {

constexpr double first_lane = 5.5;
constexpr double lane_step = 3;
constexpr double narrow_lane_step = 2;  ///< Where there are many cables.
constexpr int most_lanes = 5;
constexpr double least_stretch = 2.5;

const Segment& segment_of(const Scenario& scenario, const Step& step) {
    return scenario.segments[static_cast<std::size_t>(step.segment)];
}

/// A straight piece of a cable's way, and how far to its right the cable is drawn.
struct OffsetStretch {
    Point from;
    Point to;
    double right = 0;
};

Point moved(const Point& at, const OffsetStretch& along) {
    const double dx = along.to.x - along.from.x;
    const double dy = along.to.y - along.from.y;
    const double length = std::hypot(dx, dy);
    return {at.x - dy / length * along.right, at.y + dx / length * along.right};
}

/// Where the moved lines of two stretches that follow each other cross, if that is near.
std::optional<Point> corner(const OffsetStretch& a, const OffsetStretch& b) {
    const Point on_a = moved(a.from, a);
    const Point on_b = moved(b.from, b);
    const double ax = a.to.x - a.from.x;
    const double ay = a.to.y - a.from.y;
    const double bx = b.to.x - b.from.x;
    const double by = b.to.y - b.from.y;
    const double turn = ax * by - ay * bx;
    if (std::abs(turn) < 0.15 * std::hypot(ax, ay) * std::hypot(bx, by)) return std::nullopt;
    const double share = ((on_b.x - on_a.x) * by - (on_b.y - on_a.y) * bx) / turn;
    const Point at{on_a.x + share * ax, on_a.y + share * ay};
    const double limit = 2.5 * std::max(std::abs(a.right), std::abs(b.right)) + 1;
    if (std::hypot(at.x - b.from.x, at.y - b.from.y) > limit) return std::nullopt;
    return at;
}

/// Cables and the lanes they have in each trench.
class CableLines {
public:
    CableLines(const Scenario& scenario, const Plan& plan, const std::vector<DrawnTrench>& trenches)
        : scenario_(scenario), plan_(plan), step_(has_many_cables(plan) ? narrow_lane_step : lane_step) {
        for (const DrawnTrench& trench : trenches)
            trenches_[trench.step] = &trench;
        for (std::size_t c = 0; c < plan.cables.size(); ++c) {
            for (const Step& step : plan.cables[c].steps) {
                std::vector<std::size_t>& here = cables_in_[step];
                if (here.empty() || here.back() != c) here.push_back(c);
            }
        }
    }

    [[nodiscard]] std::vector<Point> line_of(std::size_t cable, const Point& start, const Point& end) const {
        const std::vector<OffsetStretch> stretches = stretches_of(cable);
        std::vector<Point> line = {start};
        for (std::size_t i = 0; i < stretches.size(); ++i) {
            if (i == 0) line.push_back(moved(stretches[i].from, stretches[i]));
            const bool last = i + 1 == stretches.size();
            const auto at = last ? std::nullopt : corner(stretches[i], stretches[i + 1]);
            if (at) {
                line.push_back(*at);
                continue;
            }
            line.push_back(moved(stretches[i].to, stretches[i]));
            if (!last) line.push_back(moved(stretches[i + 1].from, stretches[i + 1]));
        }
        line.push_back(end);
        return simplified(line);
    }

private:
    [[nodiscard]] int lane_of(std::size_t cable, const Step& step) const {
        const std::vector<std::size_t>& here = cables_in_.at(step);
        const auto lane = std::lower_bound(here.begin(), here.end(), cable) - here.begin();
        return static_cast<int>(std::min<std::ptrdiff_t>(lane, most_lanes - 1));
    }

    [[nodiscard]] std::vector<OffsetStretch> stretches_of(std::size_t cable) const {
        std::vector<OffsetStretch> stretches;
        PlaceIndex at = plan_.cables[cable].from;
        for (const Step& step : plan_.cables[cable].steps) {
            const Segment& segment = segment_of(scenario_, step);
            const bool backwards = segment.from != at;
            at = backwards ? segment.from : segment.to;
            const auto trench = trenches_.find(step);
            if (trench == trenches_.end()) continue;
            std::vector<Point> line = trench->second->line;
            if (backwards) std::reverse(line.begin(), line.end());
            const double aside = first_lane + step_ * lane_of(cable, step);
            append(line, backwards == trench->second->turned ? aside : -aside, stretches);
        }
        return stretches;
    }

    /// Very short pieces are passed over: beside a corner they would only make knots.
    static void append(const std::vector<Point>& line, double right, std::vector<OffsetStretch>& stretches) {
        Point from = line.front();
        for (std::size_t i = 1; i < line.size(); ++i) {
            const bool is_short = std::hypot(line[i].x - from.x, line[i].y - from.y) < least_stretch;
            if (is_short && i + 1 < line.size()) continue;
            if (is_short && !stretches.empty()) return;
            if (from.x == line[i].x && from.y == line[i].y) return;
            stretches.push_back({from, line[i], right});
            from = line[i];
        }
    }

    const Scenario& scenario_;
    const Plan& plan_;
    double step_;
    std::map<Step, const DrawnTrench*> trenches_;
    std::map<Step, std::vector<std::size_t>> cables_in_;
};

double off_line(const Point& at, const Point& a, const Point& b) {
    const double dx = b.x - a.x;
    const double dy = b.y - a.y;
    const double length = std::hypot(dx, dy);
    if (length == 0) return std::hypot(at.x - a.x, at.y - a.y);
    return std::abs((at.x - a.x) * dy - (at.y - a.y) * dx) / length;
}

}  // namespace

bool has_many_cables(const Plan& plan) {
    return plan.cables.size() > 60;
}

std::vector<Point> simplified(const std::vector<Point>& line) {
    constexpr double tolerance = 0.25;
    std::vector<Point> result;
    std::size_t kept = 0;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (i == 0 || i + 1 == line.size()) {
            result.push_back(line[i]);
            kept = i;
            continue;
        }
        // Dropped where every point since the last one kept is near the line to the next.
        bool straight = i - kept < 50;
        const Point ahead{line[i + 1].x - result.back().x, line[i + 1].y - result.back().y};
        for (std::size_t j = kept + 1; straight && j <= i; ++j) {
            const double along = (line[j].x - result.back().x) * ahead.x + (line[j].y - result.back().y) * ahead.y;
            straight = off_line(line[j], result.back(), line[i + 1]) < tolerance && along >= 0 &&
                       along <= ahead.x * ahead.x + ahead.y * ahead.y;
        }
        if (straight) continue;
        result.push_back(line[i]);
        kept = i;
    }
    return result;
}

std::vector<DrawnTrench> drawn_trenches(const Scenario& scenario, const Plan& plan, const MapFrame& frame) {
    std::vector<DrawnTrench> trenches;
    std::map<Step, std::size_t> number;
    for (const Step& step : plan.trenches) {
        const Way way = ways_of(scenario, step.segment)[static_cast<std::size_t>(step.way)];
        number[step] = trenches.size();
        trenches.push_back(
            {step, way.ground, way.method->id, simplified(frame.points(segment_of(scenario, step).polyline))});
    }
    for (const PlannedCable& cable : plan.cables) {
        PlaceIndex at = cable.from;
        std::set<Step> passed;
        for (const Step& step : cable.steps) {
            const Segment& segment = segment_of(scenario, step);
            const bool backwards = segment.from != at;
            at = backwards ? segment.from : segment.to;
            const auto found = number.find(step);
            if (found == number.end() || !passed.insert(step).second) continue;
            DrawnTrench& trench = trenches[found->second];
            if (trench.cables++ == 0) trench.turned = backwards;
        }
    }
    return trenches;
}

std::vector<std::vector<Point>> drawn_cables(const Scenario& scenario, const Plan& plan,
                                             const std::vector<DrawnTrench>& trenches, const MapFrame& frame) {
    const CableLines lines(scenario, plan, trenches);
    std::vector<std::vector<Point>> result;
    for (std::size_t c = 0; c < plan.cables.size(); ++c) {
        const auto place = [&](PlaceIndex index) {
            return frame.point(scenario.places[static_cast<std::size_t>(index)].at);
        };
        result.push_back(lines.line_of(c, place(plan.cables[c].from), place(plan.cables[c].to)));
    }
    return result;
}

}  // namespace spadework::drawing
