#include "survey/verification.hpp"

#include <cmath>
#include <numbers>
#include <set>

#include <fmt/format.h>

namespace spadework::survey {

namespace {

/// Distance by the radii of curvature of the WGS 84 ellipsoid at the middle latitude: good to 0.1 % over a few
/// kilometres.
double metres_by_radii(const Position& a, const Position& b) {
    constexpr double equatorial_radius = 6378137.0;
    constexpr double eccentricity_squared = 0.00669437999014;
    constexpr double radians = std::numbers::pi / 180;
    const double middle = (a.y + b.y) / 2 * radians;
    const double w = 1 - eccentricity_squared * std::sin(middle) * std::sin(middle);
    const double meridian_radius = equatorial_radius * (1 - eccentricity_squared) / (w * std::sqrt(w));
    const double parallel_radius = equatorial_radius / std::sqrt(w) * std::cos(middle);
    double turn = b.x - a.x;
    if (turn > 180) turn -= 360;
    if (turn < -180) turn += 360;
    return std::hypot(turn * radians * parallel_radius, (b.y - a.y) * radians * meridian_radius);
}

class Check {
public:
    Check(const SurveyedSite& site, const SurveyFindings& findings) : site_(site), findings_(findings) {}

    std::vector<std::string> run() {
        check_places();
        for (const SiteSegment& segment : site_.segments)
            check_segment(segment);
        if (violations_.empty()) check_reach();
        check_sums();
        return violations_;
    }

private:
    void check_places() {
        std::set<std::string> ids;
        for (const SitePlace& place : site_.places) {
            if (!ids.insert(place.id).second) complain("two places are called " + place.id);
            const bool good = std::abs(place.at.x) <= 180 && std::abs(place.at.y) <= 90;
            if (!good) complain("place " + place.id + " is nowhere on the globe");
        }
        const int count = static_cast<int>(site_.places.size());
        if (count < 1 || site_.places.front().kind != PlaceKind::hub) complain("the first place is not the hub");
        for (int i = 1; i < count; ++i) {
            const PlaceKind wanted = i <= site_.buildings ? PlaceKind::building : PlaceKind::junction;
            if (site_.places[static_cast<std::size_t>(i)].kind != wanted)
                complain("place " + site_.places[static_cast<std::size_t>(i)].id + " is out of order");
        }
    }

    void check_segment(const SiteSegment& segment) {
        if (!segment_ids_.insert(segment.id).second) complain("two segments are called " + segment.id);
        const int count = static_cast<int>(site_.places.size());
        const bool ends_exist = segment.from >= 0 && segment.from < count && segment.to >= 0 && segment.to < count;
        if (!ends_exist || segment.polyline.size() < 2) return complain("segment " + segment.id + " has no ends");
        if (segment.from == segment.to) complain("segment " + segment.id + " ends where it starts");
        const bool joins = segment.polyline.front() == site_.places[static_cast<std::size_t>(segment.from)].at &&
                           segment.polyline.back() == site_.places[static_cast<std::size_t>(segment.to)].at;
        if (!joins) complain("segment " + segment.id + " does not reach its places");
        double metres = 0;
        for (std::size_t i = 1; i < segment.polyline.size(); ++i)
            metres += metres_by_radii(segment.polyline[i - 1], segment.polyline[i]);
        if (segment.metres < 0.001) complain("segment " + segment.id + " has no length");
        if (std::abs(metres - segment.metres) > 0.001 + segment.metres / 1000)
            complain(
                fmt::format("segment {} is {:.3f} m, measured again {:.3f} m", segment.id, segment.metres, metres));
        if (segment.ground_choice >= static_cast<int>(site_.ground_choices.size()))
            complain("segment " + segment.id + " has no ground");
    }

    /// Walks from the hub over usable segments.
    void check_reach() {
        std::vector<std::vector<int>> beside(site_.places.size());
        for (const SiteSegment& segment : site_.segments) {
            if (!segment.ban.empty()) continue;
            beside[static_cast<std::size_t>(segment.from)].push_back(segment.to);
            beside[static_cast<std::size_t>(segment.to)].push_back(segment.from);
        }
        std::vector<char> reached(site_.places.size(), 0);
        std::vector<int> waiting = {0};
        reached[0] = 1;
        while (!waiting.empty()) {
            const int place = waiting.back();
            waiting.pop_back();
            for (const int next : beside[static_cast<std::size_t>(place)]) {
                if (reached[static_cast<std::size_t>(next)] != 0) continue;
                reached[static_cast<std::size_t>(next)] = 1;
                waiting.push_back(next);
            }
        }
        for (int i = 1; i <= site_.buildings; ++i) {
            if (reached[static_cast<std::size_t>(i)] == 0)
                complain("no way from the hub to " + site_.places[static_cast<std::size_t>(i)].id);
        }
    }

    void check_sums() {
        double ways = 0;
        double laterals = 0;
        for (const SiteSegment& segment : site_.segments)
            (segment.ground_choice < 0 ? laterals : ways) += segment.metres;
        double stated = 0;
        for (const GroundFindings& ground : findings_.grounds)
            stated += ground.metres;
        for (const BarredFindings& barred : findings_.barred)
            stated += barred.metres;
        double stated_laterals = 0;
        for (const LateralFinding& lateral : findings_.laterals)
            stated_laterals += lateral.metres;
        const auto differ = [](double a, double b) { return std::abs(a - b) > 0.001 + a * 1e-9; };
        if (differ(ways, stated)) complain(fmt::format("{:.3f} m of ways, {:.3f} m by ground", ways, stated));
        if (differ(laterals, stated_laterals))
            complain(fmt::format("{:.3f} m of laterals, {:.3f} m by building", laterals, stated_laterals));
        if (site_.buildings + 1 != static_cast<int>(findings_.laterals.size()))
            complain(fmt::format("{} buildings, {} laterals", site_.buildings, findings_.laterals.size()));
    }

    void complain(std::string what) { violations_.push_back(std::move(what)); }

    const SurveyedSite& site_;
    const SurveyFindings& findings_;
    std::set<std::string> segment_ids_;
    std::vector<std::string> violations_;
};

}  // namespace

std::vector<std::string> violations_of(const SurveyedSite& site, const SurveyFindings& findings) {
    return Check(site, findings).run();
}

}  // namespace spadework::survey
