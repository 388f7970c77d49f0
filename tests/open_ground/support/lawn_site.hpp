#pragma once

// Invented sites of a few places and areas, and what tests measure on them.

#include <functional>
#include <string>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework::lawn_site {

inline constexpr int grass = 0, paving = 1;

/// Grass at 10.00 a metre and paving at 40.00 a metre, and nothing on the map yet.
Scenario bare();

PlaceIndex add_place(Scenario& site, const std::string& id, PlaceKind kind, double x, double y);

void add_segment(Scenario& site, const std::string& id, PlaceIndex from, PlaceIndex to, int ground,
                 const std::vector<Position>& bends = {});

std::vector<Position> box(double left, double low, double right, double high);

Area& add_area(Scenario& site, const std::string& id, AreaUse use, std::vector<std::vector<Position>> rings);

PlaceIndex place(const Scenario& site, const std::string& id);

const Segment* find_segment(const Scenario& site, const std::string& id);

/// Least sum of a measure of usable segments between two places, by Dijkstra's method; infinite where no way leads.
double least(const Scenario& site, PlaceIndex from, PlaceIndex to,
             const std::function<double(const Segment&)>& measure);

double least_metres(const Scenario& site, const std::string& from, const std::string& to);

/// Inside an area by more than a margin; a negative margin lets points outside count.
bool inside_by(const Area& area, const Position& at, double margin);

/// Points along a line, every so many metres.
std::vector<Position> points_along(const Segment& segment, double every);

}  // namespace spadework::lawn_site
