#pragma once

// One function for each family of checks: adds what it finds. A new check is one more file, a line here and a call in
// check.cpp.

#include <string>

#include "checks/finding.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Loss, overload, reach and least length of every link.
void check_links(const Scenario& scenario, const Plan& plan, Findings& findings);

/// Ports, power, copper runs and rate of every building's gear; ports and uplink of the hub.
void check_gear(const Scenario& scenario, const Plan& plan, Findings& findings);

/// Strands, order lengths and joints of every cable, adapters and places of every enclosure.
void check_cables(const Scenario& scenario, const Plan& plan, Findings& findings);

/// Room in existing ducts, and where their inside is known how far cables fill it and whether three may wedge.
void check_ducts(const Scenario& scenario, const Plan& plan, Findings& findings);

/// Hop limit and shared rate of every chain.
void check_chains(const Scenario& scenario, const Plan& plan, Findings& findings);

/// Where something is: "building kiosk", "cable drop-kiosk".
std::string at_building(const Scenario& scenario, BuildingIndex building);

}  // namespace spadework
