#pragma once

// The map of a site: places, segments between them, the grounds they lie in, areas.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "units/length.hpp"
#include "units/money.hpp"

namespace spadework {

using PlaceIndex = std::int32_t;
using SegmentIndex = std::int32_t;

/// What positions on the map mean.
enum class CoordinateSystem {
    plane_metres,   ///< x east, y north, metres on a local plan.
    wgs84_degrees,  ///< x longitude, y latitude, degrees on the WGS 84 ellipsoid.
};

struct Position {
    double x = 0;
    double y = 0;
    friend bool operator==(const Position&, const Position&) = default;
};

enum class PlaceKind { junction, handhole, pole, building, hub };

struct Place {
    std::string id;
    std::string name;  ///< For people; the id where none was given.
    PlaceKind kind = PlaceKind::junction;
    Position at;
    bool enclosure_allowed = true;  ///< Already decided: by the place, or by the rules for its kind.
    std::string enclosure_reason;   ///< Why not, or what makes it dear.
    Money enclosure_extra;          ///< On top of an enclosure's own price when it stands here.
    bool laid_out = false;          ///< Not of the map as given: a point of open ground, or where a segment is cut.
};

/// How a metre is opened and made good.
enum class MethodKind { open_cut, plough, narrow_trench, bore, pole_line, existing_duct };

/// One way of opening a ground. Prices are a metre of segment.
struct OpeningMethod {
    std::string id;
    MethodKind kind = MethodKind::open_cut;
    double labour_hours_per_metre = 0;  ///< Crew hours, at labour.groundworks_rate.
    UnitPrice plant_per_metre;
    UnitPrice material_per_metre;
    UnitPrice reinstatement_per_metre;
    Money set_up;                     ///< Once for every segment opened this way.
    Length depth;                     ///< Of the trench or bore; 0 on poles and in existing ducts.
    UnitPrice duct_per_metre;         ///< New duct for each cable; 0 where none is laid.
    double pull_hours_per_metre = 0;  ///< Installer hours for each cable, at labour.installer_rate.
};

struct Ground {
    std::string id;
    std::string name;
    std::vector<OpeningMethod> methods;  ///< At least one.
};

/// What is known of the inside of a duct that is already there.
struct DuctBore {
    double inner_diameter_mm = 0;
    std::vector<double> cable_diameters_mm;  ///< Of the cables that lie in it already.
};

enum class ChargeCategory { crossing, permit };

/// Paid once when the segment is used, however it is opened.
struct FixedCharge {
    std::string what;
    ChargeCategory category = ChargeCategory::crossing;
    Money amount;
};

struct Segment {
    std::string id;
    PlaceIndex from = 0;
    PlaceIndex to = 0;
    std::vector<Position> polyline;     ///< Both ends included.
    Length length;                      ///< More than 0.
    int ground = 0;                     ///< Index into grounds.
    std::optional<int> duct_room;       ///< An existing duct, with room for this many cables.
    std::optional<DuctBore> duct_bore;  ///< Of that duct, where it is known; the room is then within its fill.
    bool pole_line = false;             ///< Poles stand along it: cables may be hung instead of buried.
    std::vector<FixedCharge> charges;
    std::string ban;   ///< Why it may not be used; empty when it may.
    std::string name;  ///< For people; may be empty.
    /// The area of open ground that it crosses, where the map itself has no way: an index into areas.
    std::optional<int> area;
};

/// What an area of the map means for trenches.
enum class AreaUse {
    open_ground,  ///< May be crossed anywhere, at its ground's price.
    obstacle,     ///< May not be entered: a building, a pond, a tree's protection zone.
    overlay,      ///< Changes what lies inside it: another ground, an extra price, a charge.
};

struct Area {
    std::string id;
    std::string name;  ///< For people; may be empty.
    AreaUse use = AreaUse::open_ground;
    std::vector<std::vector<Position>> rings;  ///< The border, then holes; the last point is not the first repeated.
    std::optional<int> ground;                 ///< Index into grounds: of open ground, or what an overlay changes to.
    UnitPrice extra_per_metre;                 ///< Of an overlay: on top of opening what lies inside.
    std::vector<FixedCharge> charges;          ///< Of an overlay: once for each segment inside that is used.
    bool bars_segments = true;                 ///< Of an obstacle: segments that enter it may not be used.
};

/// A segment of the map that may not be used because it enters an obstacle.
struct BarredSegment {
    std::string id;      ///< As the map named it.
    std::string reason;  ///< "enters the obstacle pond".
};

/// A segment that straightens plans' ways over open ground.
struct StraightSegment {
    std::string id;
    std::string like;  ///< Id of a segment over the same ground, whose price it shares.
};

/// What became of areas, for reports.
struct LaidOutGround {
    Length spacing;                         ///< Between the points of the lattice.
    int directions = 0;                     ///< Ways from each point; 0: there is no open ground.
    int points = 0;                         ///< Of the lattice.
    int lines = 0;                          ///< Segments over open ground, those of the lattice among them.
    double longest_detour = 0;              ///< Of the lattice against a straight line, as a share.
    std::vector<StraightSegment> straight;  ///< Of the segments, those added to straighten plans, in their order.
    int segments_cut = 0;                   ///< Segments of the map cut at borders, or to be joined to open ground.
    std::vector<BarredSegment> barred;      ///< Segments of the map that enter an obstacle, by id.
};

}  // namespace spadework

// Lists that many sources copy: compiled once, in site_map.cpp.
extern template class std::vector<spadework::Place>;
extern template class std::vector<spadework::OpeningMethod>;
extern template class std::vector<spadework::Ground>;
extern template class std::vector<spadework::FixedCharge>;
extern template class std::vector<spadework::Segment>;
extern template class std::vector<spadework::Area>;
extern template class std::vector<spadework::StraightSegment>;
extern template class std::vector<spadework::BarredSegment>;
