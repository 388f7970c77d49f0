#include "survey/site_areas.hpp"

#include <algorithm>
#include <optional>

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

#include "geometry/nearest_stretch.hpp"
#include "geometry/vertex_grid.hpp"
#include "scenario/local_plane.hpp"
#include "survey/name_pool.hpp"

namespace spadework::survey {

namespace {

namespace bg = boost::geometry;
using PlanePoint = bg::model::d2::point_xy<double>;
using PlanePolygon = bg::model::polygon<PlanePoint>;

PlanePolygon polygon_of(const DrawnArea& area, const LocalPlane& plane) {
    PlanePolygon polygon;
    polygon.inners().resize(area.rings.size() - 1);
    for (std::size_t i = 0; i < area.rings.size(); ++i) {
        auto& ring = i == 0 ? polygon.outer() : polygon.inners()[i - 1];
        for (const Position& position : area.rings[i]) {
            const Position point = plane.to_plane(position);
            ring.emplace_back(point.x, point.y);
        }
    }
    bg::correct(polygon);
    return polygon;
}

/// An area and what it is on the plane.
struct Candidate {
    DrawnArea area;
    PlanePolygon polygon;
    bg::model::box<PlanePoint> box;
};

class AreaPicker {
public:
    AreaPicker(SurveyedSite& site, const MapContents& contents, double reach_metres, SurveyFindings& findings)
        : site_(site),
          contents_(contents),
          reach_metres_(reach_metres),
          findings_(findings),
          plane_(CoordinateSystem::wgs84_degrees, place_positions(site)) {}

    void pick() {
        gather();
        std::vector<Stretch> stretches;
        for (const SiteSegment& segment : site_.segments) {
            for (std::size_t i = 0; i + 1 < segment.polyline.size(); ++i)
                stretches.push_back({plane_.to_plane(segment.polyline[i]), plane_.to_plane(segment.polyline[i + 1])});
        }
        const StretchSearch search(std::move(stretches));
        std::vector<const Candidate*> open;
        for (const Candidate& candidate : candidates_) {
            if (candidate.area.use == AreaUse::obstacle) continue;
            if (!is_near(candidate, search)) {
                ++findings_.areas_far_away;
                continue;
            }
            site_.areas.push_back(candidate.area);
            if (candidate.area.use == AreaUse::open_ground) open.push_back(&candidate);
        }
        for (const Candidate& candidate : candidates_) {
            if (candidate.area.use != AreaUse::obstacle) continue;
            const bool matters = std::any_of(open.begin(), open.end(), [&](const Candidate* ground) {
                return bg::intersects(candidate.box, ground->box) && bg::intersects(candidate.polygon, ground->polygon);
            });
            if (matters) site_.areas.push_back(candidate.area);
        }
        findings_.areas_taken = static_cast<int>(site_.areas.size());
    }

private:
    static std::vector<Position> place_positions(const SurveyedSite& site) {
        std::vector<Position> positions;
        for (const SitePlace& place : site.places)
            positions.push_back(place.at);
        return positions;
    }

    void gather() {
        NamePool names;
        for (const DrawnArea& area : contents_.areas)
            add_candidate(area, names);
        for (const DrawnBuilding& building : contents_.buildings) {
            if (building.from_point) continue;
            DrawnArea footprint;
            footprint.id = "footprint of " + building.id;
            footprint.use = AreaUse::obstacle;
            footprint.rings = building.rings;
            add_candidate(std::move(footprint), names);
        }
    }

    void add_candidate(DrawnArea area, NamePool& names) {
        area.id = names.take(area.id);
        for (std::vector<Position>& ring : area.rings) {
            for (Position& position : ring)
                position = rounded_degrees(position);
            ring.erase(std::unique(ring.begin(), ring.end()), ring.end());
            while (ring.size() > 1 && ring.front() == ring.back())
                ring.pop_back();
        }
        PlanePolygon polygon = polygon_of(area, plane_);
        if (!bg::is_valid(polygon)) {
            findings_.areas_broken.push_back(area.id);
            return;
        }
        const auto box = bg::return_envelope<bg::model::box<PlanePoint>>(polygon);
        candidates_.push_back({std::move(area), std::move(polygon), box});
    }

    [[nodiscard]] bool is_near(const Candidate& candidate, const StretchSearch& search) const {
        std::vector<Stretch> sides = sides_of({candidate.area.rings.front()});
        for (Stretch& side : sides)
            side = {plane_.to_plane(side.from), plane_.to_plane(side.to)};
        const auto nearest = search.nearest(sides);
        if (!nearest) return false;
        const auto& on_line = search.stretches()[nearest->stretch].from;
        return nearest->nearest.metres <= reach_metres_ ||
               bg::within(PlanePoint(on_line.x, on_line.y), candidate.polygon);
    }

    SurveyedSite& site_;
    const MapContents& contents_;
    double reach_metres_;
    SurveyFindings& findings_;
    LocalPlane plane_;
    std::vector<Candidate> candidates_;
};

}  // namespace

void add_areas(SurveyedSite& site, const MapContents& contents, double reach_metres, SurveyFindings& findings) {
    AreaPicker(site, contents, reach_metres, findings).pick();
}

}  // namespace spadework::survey
