#pragma once

// Small invented sites for tests: a catalogue, prices and rules that hold together, a hub, and a map drawn by hand.

#include <random>
#include <string>

#include "scenario/scenario.hpp"

namespace spadework::drawing {

/// A site without buildings or segments. Place 0 is the hub; ground 0 is grass, dug in an open cut.
/// Money comes out in whole cents for whole metres, so that nothing is rounded until a test asks for it.
Scenario bare_site();

PlaceIndex add_place(Scenario& site, PlaceKind kind = PlaceKind::junction);
/// A straight segment of the given length over ground 0.
SegmentIndex add_segment(Scenario& site, PlaceIndex from, PlaceIndex to, double metres);
/// A building with `links` links at 1G, standing at a place.
BuildingIndex add_building(Scenario& site, PlaceIndex at, int links = 1);
/// A ground with one way of opening it: so many cents a metre, nothing for the cables that pass.
int add_ground(Scenario& site, double cents_per_metre);

/// A row: hub, then `buildings` buildings, each `metres` behind the one before.
Scenario row_site(int buildings, double metres);

CableProduct cable(int strands, double cents_per_metre);
EnclosureProduct enclosure(int adapters, std::int64_t cents);
OpticProduct optic(const std::string& id, std::int64_t megabits, double reach_metres, std::int64_t cents);

/// Whole numbers from a to b, both included, the same on every machine.
class Dice {
public:
    explicit Dice(unsigned seed) : random_(seed) {}
    std::int64_t between(std::int64_t a, std::int64_t b) {
        return a + static_cast<std::int64_t>(random_() % static_cast<std::uint64_t>(b - a + 1));
    }
    bool one_in(int n) { return between(1, n) == 1; }

private:
    std::mt19937_64 random_;
};

inline UnitPrice cents(double minor) {
    return UnitPrice::from_minor(minor);
}

BuildingGearProduct gear(const std::string& id, GearKind kind, int optic_ports, int copper_ports);

HubGearProduct hub_gear(const std::string& id, int ports, std::int64_t price);

}  // namespace spadework::drawing
