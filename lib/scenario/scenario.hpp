#pragma once

// A site as the contractor describes it, checked once at the border and immutable from then on. Everything refers to
// everything else by index into these lists; ids are unique within their list.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "scenario/rules.hpp"
#include "scenario/site_map.hpp"
#include "units/bit_rate.hpp"
#include "units/length.hpp"
#include "units/money.hpp"
#include "units/work_time.hpp"

namespace spadework {

using BuildingIndex = std::int32_t;

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

// Lists that many sources copy: compiled once, in scenario.cpp.
extern template class std::vector<spadework::Building>;
extern template class std::vector<spadework::DeviceGroup>;
extern template class std::vector<spadework::HubDevice>;
extern template class std::vector<spadework::FutureBuilding>;
