#include "site_file/network_building.hpp"

#include <algorithm>
#include <tuple>

#include <fmt/format.h>

#include "geometry/geodesic.hpp"

namespace spadework::site_file {

namespace {

/// A lateral that would join closer than this to a point of the line joins at the point.
constexpr double joins_at_point_metres = 0.5;
/// A spot closer than this to the line stands on it.
constexpr double stands_on_line_metres = 0.05;
constexpr auto degrees = CoordinateSystem::wgs84_degrees;

std::size_t as_index(int number) {
    return static_cast<std::size_t>(number);
}

/// A new point in a line: behind point `edge`, at that share of the way to the next.
struct Cut {
    std::size_t line;
    std::size_t edge;
    double share;
    Position at;
    std::size_t joined;  ///< Which spot asks for it.
};

class NetworkBuilder {
public:
    NetworkBuilder(Features& features, LineVertices& vertices, const std::vector<JoinedSpot>& joined,
                   const GeoJsonOptions& options, Reading& reading, Draft& draft)
        : features_(features),
          vertices_(vertices),
          joined_(joined),
          options_(options),
          reading_(reading),
          draft_(draft),
          vertex_of_spot_(joined.size(), -1) {}

    void build() {
        cut_lines_for_spots();
        choose_junctions();
        place_spots();
        for (std::size_t line = 0; line < features_.lines.size(); ++line)
            add_pieces(line);
        for (std::size_t i = 0; i < joined_.size(); ++i)
            add_lateral(i);
    }

private:
    /// Gives every joined spot its vertex, with new points in the lines where there is none near enough.
    void cut_lines_for_spots() {
        std::vector<Cut> cuts;
        for (std::size_t i = 0; i < joined_.size(); ++i) {
            const Attachment& join = joined_[i].attachment;
            const std::vector<Position>& points = features_.lines[join.line].points;
            const double to_start = metres_between(join.foot, points[join.edge], degrees);
            const double to_end = metres_between(join.foot, points[join.edge + 1], degrees);
            if (std::min(to_start, to_end) <= joins_at_point_metres) {
                const std::size_t point = to_start <= to_end ? join.edge : join.edge + 1;
                vertex_of_spot_[i] = vertices_.of_line[join.line][point];
            } else {
                cuts.push_back({join.line, join.edge, join.share, join.foot, i});
            }
        }
        std::sort(cuts.begin(), cuts.end(), [](const Cut& a, const Cut& b) {
            return std::tie(a.line, a.edge, a.share, a.joined) < std::tie(b.line, b.edge, b.share, b.joined);
        });
        for (auto first = cuts.begin(); first != cuts.end();) {
            const auto last =
                std::find_if(first, cuts.end(), [first](const Cut& cut) { return cut.line != first->line; });
            insert_points(std::vector<Cut>(first, last));
            first = last;
        }
    }

    /// Puts the cuts of one line into it. Cuts close to each other become one point.
    void insert_points(const std::vector<Cut>& cuts) {
        LineFeature& line = features_.lines[cuts.front().line];
        std::vector<int>& of_line = vertices_.of_line[cuts.front().line];
        std::vector<Position> points;
        std::vector<int> numbers;
        std::size_t next = 0;
        for (std::size_t point = 0; point < line.points.size(); ++point) {
            points.push_back(line.points[point]);
            numbers.push_back(of_line[point]);
            for (; next < cuts.size() && cuts[next].edge == point; ++next) {
                const bool near_last = numbers.back() != of_line[point] &&
                                       metres_between(points.back(), cuts[next].at, degrees) <= joins_at_point_metres;
                if (!near_last) {
                    points.push_back(cuts[next].at);
                    numbers.push_back(vertices_.vertex_at(cuts[next].at));
                    ++vertices_.uses[as_index(numbers.back())];
                }
                vertex_of_spot_[cuts[next].joined] = numbers.back();
            }
        }
        line.points = std::move(points);
        of_line = std::move(numbers);
    }

    void choose_junctions() {
        is_junction_.assign(vertices_.at().size(), 0);
        for (const std::vector<int>& of_line : vertices_.of_line) {
            is_junction_[as_index(of_line.front())] = 1;
            is_junction_[as_index(of_line.back())] = 1;
        }
        for (std::size_t vertex = 0; vertex < vertices_.at().size(); ++vertex) {
            if (vertices_.uses[vertex] > 1) is_junction_[vertex] = 1;
        }
        for (const int vertex : vertex_of_spot_)
            is_junction_[as_index(vertex)] = 1;
        place_of_vertex_.assign(vertices_.at().size(), -1);
    }

    int add_place(Place place, const SourcePosition& where, std::optional<bool> enclosure) {
        const int number = static_cast<int>(draft_.scenario.places.size());
        if (!draft_.places.add(place.id, number, where, reading_)) return draft_.places.number_of(place.id);
        draft_.scenario.places.push_back(std::move(place));
        draft_.place_positions.push_back(where);
        draft_.enclosure_given.push_back(enclosure);
        return number;
    }

    int place_of(int vertex, const SourcePosition& where) {
        int& place = place_of_vertex_[as_index(vertex)];
        if (place < 0) {
            Place junction;
            junction.at = vertices_.at()[as_index(vertex)];
            junction.id = junction_name(junction.at);
            junction.name = junction.id;
            place = add_place(std::move(junction), where, std::nullopt);
        }
        return place;
    }

    /// The first spot that stands on a vertex takes it over; the others get a place of their own.
    void place_spots() {
        place_of_spot_.assign(joined_.size(), -1);
        for (std::size_t i = 0; i < joined_.size(); ++i) {
            const Attachment& join = joined_[i].attachment;
            const Position& vertex = vertices_.at()[as_index(vertex_of_spot_[i])];
            int& at_vertex = place_of_vertex_[as_index(vertex_of_spot_[i])];
            const bool stands_on_it = metres_between(join.entrance, vertex, degrees) <= stands_on_line_metres;
            Place place = place_for(features_.spots[joined_[i].spot]);
            place.at = stands_on_it && at_vertex < 0 ? vertex
                       : stands_on_it                ? middle_of(features_.spots[joined_[i].spot])
                                                     : join.entrance;
            const SpotFeature& spot = features_.spots[joined_[i].spot];
            place_of_spot_[i] = add_place(std::move(place), spot.where, spot.enclosure_allowed);
            if (stands_on_it && at_vertex < 0) at_vertex = place_of_spot_[i];
        }
        for (std::size_t i = 0; i < joined_.size(); ++i) {
            const SpotFeature& spot = features_.spots[joined_[i].spot];
            if (spot.name != spot.id) draft_.places.add_alias(spot.name, place_of_spot_[i]);
        }
    }

    static Place place_for(const SpotFeature& spot) {
        Place place;
        place.id = spot.id;
        place.name = spot.name;
        place.kind = spot.kind;
        place.enclosure_reason = spot.enclosure_reason;
        place.enclosure_extra = spot.enclosure_extra;
        return place;
    }

    static Position middle_of(const SpotFeature& spot) {
        const std::vector<Position>& ring = spot.rings.front();
        Position beyond_first;
        for (const Position& point : ring) {
            beyond_first.x += (point.x - ring.front().x) / static_cast<double>(ring.size());
            beyond_first.y += (point.y - ring.front().y) / static_cast<double>(ring.size());
        }
        return {ring.front().x + beyond_first.x, ring.front().y + beyond_first.y};
    }

    /// Numbers of the points where a line is cut, its ends included.
    std::vector<std::size_t> cuts_of(std::size_t line) {
        const std::vector<int>& of_line = vertices_.of_line[line];
        std::vector<std::size_t> cuts = {0};
        for (std::size_t point = 1; point < of_line.size(); ++point) {
            if (is_junction_[as_index(of_line[point])] == 0) continue;
            if (of_line[point] == of_line[cuts.back()]) cuts.push_back(halfway(line, cuts.back(), point));
            cuts.push_back(point);
        }
        return cuts;
    }

    /// The point nearest to the middle of the way from one point of a line to another, neither of the two.
    [[nodiscard]] std::size_t halfway(std::size_t line, std::size_t from, std::size_t to) const {
        const std::vector<Position>& points = features_.lines[line].points;
        const auto way = [&](std::size_t a, std::size_t b) {
            double metres = 0;
            for (std::size_t i = a; i < b; ++i)
                metres += metres_between(points[i], points[i + 1], degrees);
            return metres;
        };
        const double half = way(from, to) / 2;
        std::size_t point = from + 1;
        double metres = way(from, point);
        while (point + 1 < to && metres < half) {
            metres += way(point, point + 1);
            ++point;
        }
        return point;
    }

    /// A line's own length shared out among its pieces by their lengths on the map, to the millimetre; nothing where it
    /// has none of its own.
    static std::vector<Length> lengths_of_pieces(const LineFeature& line, const std::vector<std::size_t>& cuts) {
        std::vector<Length> lengths;
        if (!line.length) return lengths;
        std::vector<double> ends = {0};
        for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
            double metres = ends.back();
            for (std::size_t point = cuts[i]; point < cuts[i + 1]; ++point)
                metres += metres_between(line.points[point], line.points[point + 1], degrees);
            ends.push_back(metres);
        }
        const auto whole = static_cast<double>(line.length->millimetres());
        std::int64_t begin = 0;
        for (std::size_t i = 1; i < ends.size(); ++i) {
            const std::int64_t end = std::llround(whole * ends[i] / ends.back());
            lengths.push_back(Length::from_millimetres(std::max<std::int64_t>(1, end - begin)));
            begin = end;
        }
        return lengths;
    }

    void add_pieces(std::size_t number) {
        const LineFeature& line = features_.lines[number];
        const std::vector<std::size_t> cuts = cuts_of(number);
        if (cuts.size() > 2 && !line.charges.empty()) {
            reading_.warning(line.where,
                             fmt::format("line {} is cut into {} segments, and its charges count for each that is used",
                                         quoted(line.id), cuts.size() - 1),
                             "a line of its own for what is charged");
        }
        const std::vector<Length> lengths = lengths_of_pieces(line, cuts);
        for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
            Segment segment;
            if (!lengths.empty()) segment.length = lengths[i];
            segment.id = cuts.size() == 2 ? line.id : fmt::format("{}.{}", line.id, i + 1);
            segment.name = line.name;
            segment.from = place_of(vertices_.of_line[number][cuts[i]], line.where);
            segment.to = place_of(vertices_.of_line[number][cuts[i + 1]], line.where);
            segment.polyline.assign(line.points.begin() + static_cast<std::ptrdiff_t>(cuts[i]),
                                    line.points.begin() + static_cast<std::ptrdiff_t>(cuts[i + 1]) + 1);
            segment.ground = line.ground;
            segment.duct_room = line.duct_room;
            segment.duct_bore = line.duct_bore;
            segment.pole_line = line.pole_line;
            segment.ban = line.ban;
            segment.charges = line.charges;
            add_segment(std::move(segment), line.where);
        }
    }

    void add_lateral(std::size_t i) {
        const SpotFeature& spot = features_.spots[joined_[i].spot];
        const int junction = place_of(vertex_of_spot_[i], spot.where);
        if (junction == place_of_spot_[i]) return;
        Segment segment;
        segment.id = "lateral to " + spot.id;
        segment.from = junction;
        segment.to = place_of_spot_[i];
        segment.polyline = {draft_.scenario.places[as_index(segment.from)].at,
                            draft_.scenario.places[as_index(segment.to)].at};
        segment.ground = options_.lateral_ground;
        if (metres_along(segment.polyline, degrees) < 0.001) {
            reading_.error(spot.where,
                           fmt::format("{} stands where {} stands already", quoted(spot.id),
                                       quoted(draft_.scenario.places[as_index(junction)].id)),
                           "a position of its own");
            return;
        }
        add_segment(std::move(segment), spot.where);
    }

    void add_segment(Segment segment, const SourcePosition& where) {
        const double metres = metres_along(segment.polyline, degrees);
        if (metres < 0.001 || metres > 1e6) {
            reading_.error(where, fmt::format("segment {} is {:.4f} m long", quoted(segment.id), metres),
                           "at least 1 mm and at most 1000 km");
            return;
        }
        if (segment.length == Length()) segment.length = Length::from_metres(metres);
        const int number = static_cast<int>(draft_.scenario.segments.size());
        if (!draft_.segments.add(segment.id, number, where, reading_)) return;
        draft_.scenario.segments.push_back(std::move(segment));
    }

    Features& features_;
    LineVertices& vertices_;
    const std::vector<JoinedSpot>& joined_;
    const GeoJsonOptions& options_;
    Reading& reading_;
    Draft& draft_;
    std::vector<int> vertex_of_spot_;
    std::vector<int> place_of_spot_;
    std::vector<int> place_of_vertex_;
    std::vector<char> is_junction_;
};

}  // namespace

void add_network(Features& features, LineVertices& vertices, const std::vector<JoinedSpot>& joined,
                 const GeoJsonOptions& options, Reading& reading, Draft& draft) {
    NetworkBuilder(features, vertices, joined, options, reading, draft).build();
}

}  // namespace spadework::site_file
