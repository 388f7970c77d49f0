#pragma once

// An invented site small enough to check by hand, with one of everything a plan can meet: a handhole, an existing duct,
// a pole line, a road with a charge and a bore, a place where no enclosure may stand.
//
//   hub --drive-- gate --avenue-- corner --lane-- barn
//                  |              /  |  \.
//                 road         spur path  wires
//                  |           /     |      \.
//                 kiosk ------+    lodge --- yard
//                                       fence

#include <string>
#include <vector>

#include "layout/assembly.hpp"
#include "layout/design.hpp"
#include "scenario/scenario.hpp"

namespace spadework::crossroads {

inline constexpr PlaceIndex barn = 0, corner = 1, gate = 2, hub = 3, kiosk = 4, lodge = 5, yard = 6;
inline constexpr SegmentIndex avenue = 0, drive = 1, fence = 2, lane = 3, path = 4, road = 5, spur = 6, wires = 7;
inline constexpr BuildingIndex barn_house = 0, kiosk_house = 1, lodge_house = 2;

inline UnitPrice euros(double amount) {
    return UnitPrice::from_minor(amount * 100.0);
}

OpeningMethod method(const std::string& id, MethodKind kind, double hours, double plant);

Building building(const char* id, PlaceIndex place, int links);

CableProduct cable(const char* id, int strands, double price, double end);

OpticProduct optic();

void add_rules(Scenario& site);

/// The site: three buildings, the kiosk with two links.
Scenario site();

RoutedLayout home_runs();

/// One enclosure at the corner; the lodge is reached along the pole line.
RoutedLayout trunk();

/// hub > kiosk > barn and hub > lodge.
RoutedLayout chains();

/// hub > kiosk > barn > hub and hub > lodge > hub. The drive and the lane are all the way there is; nothing else is
/// passed twice by one ring.
RoutedLayout rings();

/// A design of those routes with a bound of `direct_bound`.
Design design_of(const Scenario& scenario, const RoutedLayout& routed, Money direct_bound = Money());

}  // namespace spadework::crossroads
