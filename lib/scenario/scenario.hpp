#pragma once

// A site as the contractor describes it, checked once at the border and immutable from then on. Everything refers to
// everything else by index into these lists; ids are unique within their list.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "catalogue/fibre_colour.hpp"
#include "units/bit_rate.hpp"
#include "units/length.hpp"
#include "units/money.hpp"
#include "units/work_time.hpp"

namespace spadework {

using PlaceIndex = std::int32_t;
using SegmentIndex = std::int32_t;
using BuildingIndex = std::int32_t;

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

/// What hangs on a building's gear, for example four cameras at 12 W.
struct DeviceGroup {
    std::string what;
    int count = 1;
    double watts = 0;                          ///< Each, at the device; 0 when not fed over the data cable.
    std::optional<Length> copper_length = {};  ///< Of the longest copper run to one of them, cords included.
};

/// Links wanted from the hub to a building.
struct LinkDemand {
    BitRate rate;
    int count = 1;
};

struct Building {
    std::string id;
    std::string name;
    PlaceIndex place = 0;
    std::vector<LinkDemand> links;  ///< At least one link in all.
    std::vector<DeviceGroup> devices;
};

/// What takes copper ports at the hub: a recorder, servers.
struct HubDevice {
    std::string what;
    int count = 1;  ///< Ports.
};

struct Hub {
    PlaceIndex place = 0;
    int free_optic_ports = 0;   ///< Already there and unused.
    int free_copper_ports = 0;  ///< Likewise.
    int growth_ports = 0;       ///< Optic ports wanted free for links that come later.
    std::vector<HubDevice> devices = {};
    std::optional<BitRate> uplink = {};  ///< From the hub to the rest of the world, where there is one.
};

struct Labour {
    UnitPrice groundworks_rate;  ///< An hour of the digging crew.
    UnitPrice installer_rate;    ///< An hour of a cable installer.
    WorkTime plug_time;          ///< Plug, clean and label one strand end.
    WorkTime test_time;          ///< Test one strand end to end, both ways.
    Money mobilisation;          ///< Once a job.
    double hours_per_day = 8;
};

enum class Termination { factory, spliced };

/// Loss allowances, dB and dB/km.
struct LossRules {
    double attenuation_1310_db_per_km = 0.4;
    double attenuation_1550_db_per_km = 0.3;
    double mated_pair_db = 0.75;
    double splice_db = 0.3;
    double spare_margin_db = 0;
};

/// Length beyond the map that a cable needs.
struct SlackRules {
    Length rise_per_end;  ///< From the trench up to the gear or into the enclosure.
    Length coil_per_end;
    Length coil_per_handhole;    ///< In every handhole the cable passes through.
    Percent ordering_allowance;  ///< On the whole length, after rise and coils.
};

/// Spare strands beyond those in use.
struct SpareRules {
    Percent trunk_spare;  ///< Of the strands in use in a trunk.
    int trunk_spare_least = 0;
    int drop_spare_least = 0;  ///< In a drop, home run or hop.
};

/// Most of a duct's cross-section that cables may take, by how many lie in it.
struct FillRules {
    Percent one_cable = Percent::from_thousandths(53000);
    Percent two_cables = Percent::from_thousandths(31000);
    Percent more_cables = Percent::from_thousandths(40000);
};

/// How open ground becomes ways.
struct OpenGroundRules {
    Length spacing;       ///< Between the points of the lattice; 0: by the size of the open ground.
    int directions = 16;  ///< Ways from each point: 8, 16 or 32.
    Length reach;         ///< Segments and buildings this near to open ground are joined to it.
};

/// How often something fails, and how long it is down each time.
struct FailureRate {
    double per_year = 0;
    double repair_hours = 0;
    [[nodiscard]] double minutes_per_year() const { return per_year * repair_hours * 60; }
};

/// Rates are the site's own, not law.
struct FailureRules {
    FailureRate cut_per_km;  ///< Of a kilometre of trench, duct or pole line.
    FailureRate enclosure;
    FailureRate building_gear;  ///< All gear in one building.
    FailureRate hub;
};

struct Rules {
    Termination termination = Termination::factory;
    StrandUse strand_use = StrandUse::duplex;  ///< Of all links of a plan.
    /// A plan may have either strand use, whichever makes it cheaper; `strand_use` then means nothing until a copy of
    /// the scenario settles it (see settled_on()).
    bool either_strand_use = false;
    int most_enclosures = 1;
    int hop_limit = 8;  ///< Most buildings in one chain or ring.
    LossRules loss;
    SlackRules slack;
    SpareRules spare;
    Percent contingency;
    Percent tax;
    int spare_copper_ports = 0;                        ///< Wanted free on every building's switch.
    Length longest_copper = Length::from_metres(100);  ///< From a switch to a device, cords included.
    FillRules duct_fill;
    OpenGroundRules open_ground;
    FailureRules failures;
    ColourOrder colours = tia_598_order();  ///< Of strands and tubes.
};

/// A building that may come later.
struct FutureBuilding {
    std::string id;
    std::string name;
    std::optional<PlaceIndex> place;
    double chance = 0;  ///< 0 to 1, that it comes within the horizon.
    int year = 0;       ///< Years from now.
    int links = 1;
};

struct Growth {
    Percent headroom;  ///< Strands beyond those in use and spare, in every trunk.
    int horizon_years = 10;
    double unnamed_links_per_year = 0;
    Percent discount_rate;
    std::vector<FutureBuilding> buildings;
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

struct Scenario {
    std::string name;
    std::string note;
    Currency currency;
    bool feet = false;  ///< Lengths are given and reported in feet.
    CoordinateSystem coordinates = CoordinateSystem::plane_metres;
    std::vector<Place> places;      ///< Sorted by id.
    std::vector<Segment> segments;  ///< Sorted by id.
    std::vector<Area> areas;        ///< Sorted by id.
    LaidOutGround open_ground;
    std::vector<Ground> grounds;  ///< Sorted by id.
    OpeningMethod existing_duct;  ///< What using an existing duct takes.
    OpeningMethod pole_line;      ///< What hanging cables on an existing pole line takes.
    Hub hub;
    std::vector<Building> buildings;  ///< Sorted by id.
    Catalogue catalogue;
    Labour labour;
    Rules rules;
    Growth growth;
    std::string digest;  ///< Of every byte read, as 16 hexadecimal digits.
};

}  // namespace spadework
