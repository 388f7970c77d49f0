#pragma once

// A site's map while open ground is being added to it.

#include <map>
#include <string>
#include <unordered_set>
#include <vector>

#include "open_ground/ground_map.hpp"
#include "scenario/scenario.hpp"

namespace spadework::open_ground {

/// Adds places and segments with ids that nothing else has. Lists are unsorted until finish().
class MapSheet {
public:
    MapSheet(Scenario& scenario, const GroundMap& ground);

    [[nodiscard]] const Scenario& scenario() const { return scenario_; }
    [[nodiscard]] const GroundMap& ground() const { return ground_; }
    /// Where a place lies on the plane.
    [[nodiscard]] const Position& at(PlaceIndex place) const { return at_[static_cast<std::size_t>(place)]; }

    /// A place that no enclosure may stand at.
    PlaceIndex add_place(const std::string& id, const Position& on_plane);

    /// A straight step between two places through a ground, whatever lies there. Nothing where they are closer than
    /// the least length of a piece.
    void add_step(PlaceIndex from, PlaceIndex to, int ground, int area);

    /// A straight line between two places over open ground, as one segment for each zone that it crosses. False, and
    /// nothing added, where it leaves open ground or enters an obstacle.
    bool add_line(PlaceIndex from, PlaceIndex to, const std::vector<int>& passed = {});

    /// Puts other segments in place of the segment with that number.
    void replace(SegmentIndex segment, std::vector<Segment> pieces);

    /// The ground of a zone for what would be of `ground` without overlays: that of the smallest overlay with a ground,
    /// with the extra prices of all. Added to the grounds where it is new.
    int ground_in(const Zone& zone, int ground);
    /// The charges of a zone's overlays.
    [[nodiscard]] std::vector<FixedCharge> charges_in(const Zone& zone) const;

    std::string unused_segment_id(const std::string& id);

    LaidOutGround& facts() { return scenario_.open_ground; }

private:
    void add_segment(const std::string& id, PlaceIndex from, PlaceIndex to, const Zone& zone);
    [[nodiscard]] const Area& area(int index) const { return scenario_.areas[static_cast<std::size_t>(index)]; }

    Scenario& scenario_;
    const GroundMap& ground_;
    std::vector<Position> at_;
    std::unordered_set<std::string> place_ids_;    ///< Only looked up, never walked.
    std::unordered_set<std::string> segment_ids_;  ///< Only looked up, never walked.
    std::map<std::pair<PlaceIndex, PlaceIndex>, bool> lines_;
    std::map<std::pair<int, std::vector<int>>, int> dearer_grounds_;  ///< By ground and overlays with an extra price.
};

}  // namespace spadework::open_ground
