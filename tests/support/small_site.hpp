#pragma once

// An invented site with round prices, small enough to price and check by hand, and plans for it written out in full.
//
//   hub --drive 100 m-- gate --lane 50 m-- mill
//                        |
//                        +----path 30 m--- barn
//
// Everything is in cents. The drive has a road crossing and a permit; the ground is grass, dug in one way only.

#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework::small_site {

inline constexpr PlaceIndex barn_place = 0, gate = 1, hub = 2, mill_place = 3;
inline constexpr SegmentIndex drive = 0, lane = 1, path = 2;
inline constexpr BuildingIndex barn = 0, mill = 1;
inline constexpr int cable_4 = 0, cable_12 = 1, cable_24 = 2;

/// The site.
Scenario site();

/// A cable in each segment's first way, cut from `product` for two strands in use.
PlannedCable cable_along(const Scenario& site, const std::string& id, std::vector<Step> steps, int product = 0);
/// A 1G link of two strands over those cables of the plan.
PlannedLink link_to(BuildingIndex building, const Plan& plan, std::vector<int> cables);

/// A home run to each building: cables run-barn and run-mill.
Plan home_runs(const Scenario& site);
/// A trunk to an enclosure at the gate, and a drop to each building.
Plan trunk(const Scenario& site);
/// From the hub to the barn, and from there to the mill.
Plan chain(const Scenario& site);

inline UnitPrice cents(double minor) {
    return UnitPrice::from_minor(minor);
}

inline Length metres(double length) {
    return Length::from_metres(length);
}

inline BitRate megabits(std::int64_t rate) {
    return BitRate::from_megabits(rate);
}

Place place(const std::string& id, PlaceKind kind, double x, double y);

void add_segment(Scenario& site, const std::string& id, PlaceIndex from, PlaceIndex to, double length);

/// 20.00 a metre: 0.2 h at 60.00 an hour, plant 3.00, material 1.00, reinstatement 4.00. Each cable pays 1.50 of duct
/// and 0.01 h at 36.00 an hour.
OpeningMethod open_cut();

CableProduct cable(int strands, double per_metre, double end);

BuildingGearProduct gear(const std::string& id, GearKind kind, int optic_ports, int copper_ports, double watts);

/// Launch -9 to -3 dBm, sensitivity -19.5 dBm, 4.5 dB of penalties: the plant may lose 6 dB.
OpticProduct optic();

Catalogue catalogue();

Building building(const std::string& id, PlaceIndex at, std::vector<DeviceGroup> devices);

void add_rules(Scenario& site);

/// Where steps that start at a place end.
PlaceIndex end_of(const Scenario& site, PlaceIndex from, const std::vector<Step>& steps);

/// hub > barn > mill > hub.
Plan ring(const Scenario& site);

}  // namespace spadework::small_site
