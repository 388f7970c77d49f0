#include "open_ground/straight_lines.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include <fmt/format.h>

#include "geometry/geodesic.hpp"
#include "open_ground/ground_map.hpp"
#include "scenario/ordering.hpp"

namespace spadework::open_ground {

namespace {

using Places = std::pair<PlaceIndex, PlaceIndex>;

/// A way over open ground without branches: places, and the segments between them.
struct Chain {
    std::vector<PlaceIndex> places;
    std::vector<SegmentIndex> segments;
};

class Straightening {
public:
    Straightening(const Scenario& scenario, const std::vector<SegmentIndex>& used)
        : scenario_(scenario), ground_(scenario), used_(used.begin(), used.end()) {
        for (const SegmentIndex number : used_) {
            const Segment& segment = segment_at(number);
            at_[segment.from].push_back(number);
            at_[segment.to].push_back(number);
        }
        for (const Segment& segment : scenario.segments)
            known_.insert(std::minmax(segment.from, segment.to));
    }

    std::vector<StraightLine> run() {
        const std::vector<Chain> chains = chains_between_branches();
        for (const Chain& chain : chains)
            straighten(chain);
        join_ends_across_branches(chains);
        std::vector<StraightLine> lines;
        for (const auto& [places, like] : lines_)
            lines.push_back({places.first, places.second, like});
        return lines;
    }

private:
    [[nodiscard]] const Segment& segment_at(SegmentIndex number) const {
        return scenario_.segments[static_cast<std::size_t>(number)];
    }

    [[nodiscard]] Position on_plane(PlaceIndex place) const {
        return ground_.plane().to_plane(scenario_.places[static_cast<std::size_t>(place)].at);
    }

    /// A chain goes through points that were laid out, where two segments over open ground meet and nothing else.
    [[nodiscard]] bool goes_on(PlaceIndex place) const {
        const std::vector<SegmentIndex>& meeting = at_.at(place);
        return scenario_.places[static_cast<std::size_t>(place)].laid_out && meeting.size() == 2 &&
               segment_at(meeting[0]).area && segment_at(meeting[1]).area;
    }

    [[nodiscard]] PlaceIndex other_end(SegmentIndex segment, PlaceIndex place) const {
        return segment_at(segment).from == place ? segment_at(segment).to : segment_at(segment).from;
    }

    [[nodiscard]] Chain chain_from(PlaceIndex start, SegmentIndex first) const {
        Chain chain{{start, other_end(first, start)}, {first}};
        while (goes_on(chain.places.back()) && chain.places.back() != start) {
            const std::vector<SegmentIndex>& meeting = at_.at(chain.places.back());
            const SegmentIndex next = meeting[0] == chain.segments.back() ? meeting[1] : meeting[0];
            chain.places.push_back(other_end(next, chain.places.back()));
            chain.segments.push_back(next);
        }
        return chain;
    }

    [[nodiscard]] std::vector<Chain> chains_between_branches() const {
        std::vector<Chain> chains;
        std::set<SegmentIndex> walked;
        for (const auto& [place, meeting] : at_) {
            if (goes_on(place)) continue;
            for (const SegmentIndex first : meeting) {
                if (!segment_at(first).area || walked.contains(first)) continue;
                chains.push_back(chain_from(place, first));
                walked.insert(chains.back().segments.begin(), chains.back().segments.end());
            }
        }
        return chains;
    }

    /// The zone of a segment over open ground; nothing of a step that leads up to it.
    [[nodiscard]] std::optional<Zone> zone_of(SegmentIndex number) const {
        const Segment& segment = segment_at(number);
        const std::vector<Run> runs = ground_.runs_of({on_plane(segment.from), on_plane(segment.to)});
        if (runs.size() != 1 || !runs.front().zone.may_be_dug()) return std::nullopt;
        return runs.front().zone;
    }

    /// Notes the line if it lies in the zone of the segment and is new; whether it lies there.
    bool add_if_clear(PlaceIndex from, PlaceIndex to, SegmentIndex like) {
        if (from == to) return false;
        const Places places = std::minmax(from, to);
        if (known_.contains(places)) return true;
        const std::optional<Zone> zone = zone_of(like);
        const std::vector<Run> runs = ground_.runs_of({on_plane(places.first), on_plane(places.second)});
        if (!zone || runs.size() != 1 || !(runs.front().zone == *zone)) return false;
        lines_.try_emplace(places, like);
        return true;
    }

    void straighten(const Chain& chain) {
        const std::size_t last = chain.places.size() - 1;
        for (std::size_t begin = 0; begin + 1 < last;) {
            std::size_t end = last;
            while (end > begin + 1 && !add_if_clear(chain.places[begin], chain.places[end], chain.segments[begin]))
                --end;
            begin = end;
        }
    }

    void join_ends_across_branches(const std::vector<Chain>& chains) {
        std::map<PlaceIndex, std::vector<std::pair<PlaceIndex, SegmentIndex>>> ends;  // By branch.
        for (const Chain& chain : chains) {
            ends[chain.places.front()].emplace_back(chain.places.back(), chain.segments.front());
            ends[chain.places.back()].emplace_back(chain.places.front(), chain.segments.back());
        }
        for (const auto& [branch, far] : ends) {
            if (!scenario_.places[static_cast<std::size_t>(branch)].laid_out) continue;
            for (std::size_t a = 0; a < far.size(); ++a) {
                for (std::size_t b = a + 1; b < far.size(); ++b)
                    add_if_clear(far[a].first, far[b].first, far[a].second);
            }
        }
    }

    const Scenario& scenario_;
    GroundMap ground_;
    std::set<SegmentIndex> used_;
    std::map<PlaceIndex, std::vector<SegmentIndex>> at_;
    std::set<Places> known_;
    std::map<Places, SegmentIndex> lines_;
};

}  // namespace

std::vector<StraightLine> straight_lines(const Scenario& scenario, const std::vector<SegmentIndex>& used) {
    if (scenario.open_ground.directions == 0) return {};
    return Straightening(scenario, used).run();
}

Scenario with_straight_lines(Scenario scenario, const std::vector<StraightLine>& lines) {
    std::set<std::string> ids;
    for (const Segment& segment : scenario.segments)
        ids.insert(segment.id);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        Segment line = scenario.segments[static_cast<std::size_t>(lines[i].like)];
        const Area& area = scenario.areas[static_cast<std::size_t>(line.area.value_or(0))];
        line.id = fmt::format("straight line {} in {}", i + 1, area.id);
        while (!ids.insert(line.id).second)
            line.id += "'";
        line.from = lines[i].from;
        line.to = lines[i].to;
        line.polyline = {scenario.places[static_cast<std::size_t>(line.from)].at,
                         scenario.places[static_cast<std::size_t>(line.to)].at};
        line.length = std::max(Length::from_metres(metres_along(line.polyline, scenario.coordinates)),
                               Length::from_millimetres(1));
        const std::string& like = scenario.segments[static_cast<std::size_t>(lines[i].like)].id;
        scenario.open_ground.straight.push_back({line.id, like});
        scenario.segments.push_back(std::move(line));
    }
    scenario.open_ground.lines += static_cast<int>(lines.size());
    put_in_order(scenario);
    return scenario;
}

}  // namespace spadework::open_ground
