#pragma once

// The lines of a bill, part by part of the plan. A new kind of cost is one more function here and a call in bill.cpp.

#include <vector>

#include "costing/bill.hpp"

namespace spadework {

/// Opening each trench: groundworks, set-up, and the segment's fixed charges. Together they equal Way.opening.
void add_trench_lines(const Scenario& scenario, const Plan& plan, std::vector<CostLine>& lines);

/// Each cable as ordered, its ducts, its pulling, its two ends and its joints.
void add_cable_lines(const Scenario& scenario, const Plan& plan, std::vector<CostLine>& lines);

/// Optics, patch cords and testing of each link.
void add_link_lines(const Scenario& scenario, const Plan& plan, std::vector<CostLine>& lines);

/// Each enclosure, its installation and what its place costs extra.
void add_enclosure_lines(const Scenario& scenario, const Plan& plan, std::vector<CostLine>& lines);

/// Gear in the buildings and at the hub, with its installation.
void add_gear_lines(const Scenario& scenario, const Plan& plan, std::vector<CostLine>& lines);

/// What the job costs once.
void add_job_lines(const Scenario& scenario, std::vector<CostLine>& lines);

/// Contingency and tax on the direct cost.
void add_quote_lines(const Scenario& scenario, Money direct, std::vector<CostLine>& lines);

/// Puts the lines of direct cost in order and adds contingency and tax on them.
void finish_bill(const Scenario& scenario, Bill& bill);

}  // namespace spadework
