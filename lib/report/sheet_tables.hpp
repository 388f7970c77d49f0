#pragma once

// The sheets a crew works from as tables for people: those of one layout, which can be built.

#include "comparison/comparison.hpp"
#include "report/text_table.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// What to buy: quantity, unit price and amount, a sum for each category and a total.
TextTable materials_table(const Scenario& scenario, const LayoutResult& layout);
/// Cables by product and ordered length, with what ordering in steps wastes.
TextTable cable_order_table(const Scenario& scenario, const Plan& plan);
/// The same cut from reels; empty where that saves nothing.
TextTable reel_table(const Scenario& scenario, const Plan& plan);
/// Hours and crew days by trade and task, a sum for each trade.
TextTable crew_hours_table(const Scenario& scenario, const LayoutResult& layout);
/// Factory-made ends against splices, cable by cable.
TextTable termination_table(const Scenario& scenario, const Plan& plan);
/// Which of the two is cheaper, by how much and how many hours, and what stands against it.
std::string termination_sentence(const Scenario& scenario, const Plan& plan);
/// Every strand: colour, purpose, both ends, what it is joined to.
TextTable strand_map_table(const Scenario& scenario, const LayoutResult& layout);
TextTable label_table(const Scenario& scenario, const LayoutResult& layout);
TextTable pull_table(const Scenario& scenario, const Plan& plan);
/// Limits for every strand and wavelength, with room for the readings of both directions.
TextTable test_sheet_table(const Scenario& scenario, const LayoutResult& layout);

}  // namespace spadework::report
