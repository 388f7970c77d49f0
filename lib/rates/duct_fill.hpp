#pragma once

// How much of a duct's inside its cables take, and how many more it takes.
//
// The shares and the jamming caution are those of the NEC (NFPA 70), Chapter 9, Table 1 and its informational note 2.
// For optical fibre without power conductors in the same raceway that table does not bind (NEC 770.110(B), value from
// memory); the telecom trade uses the same 40 % for three cables and more (ANSI/TIA-569, value from memory). Here it is
// good practice whose shares are rules of the site.

#include <cstddef>
#include <vector>

#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework {

/// Share of the cross-section of a duct that round cables take: sum of d^2 over D^2.
double duct_fill(double inner_diameter_mm, const std::vector<double>& cable_diameters_mm);

/// The share that so many cables may take together; the rule for one where there is none.
Percent fill_limit(std::size_t cables, const FillRules& rules);

/// Whether the cables keep within the share for their number, to a millionth of a percent.
bool is_within_fill(double inner_diameter_mm, const std::vector<double>& cable_diameters_mm, const FillRules& rules);

/// Cables of one diameter that a share of the cross-section holds, not rounded: 6.70 for 12.7 mm in 40 % of 51.99 mm.
/// What is counted on is the whole part. (Note 7 of the same table would round a part of 0.8 and more up.)
double cables_by_area(double inner_diameter_mm, double cable_diameter_mm, Percent share);

/// How many cables of a diameter may join those in the duct, at most so many: as many as can be added one by one with
/// the fill kept at each number, so that any smaller number of cables, and thinner ones, keep it too.
int room_by_fill(const DuctBore& bore, double cable_diameter_mm, const FillRules& rules, int most);

/// Inner diameter over mean cable diameter where three cables may wedge side by side in a bend.
inline constexpr double least_jam_ratio = 2.8;
inline constexpr double most_jam_ratio = 3.2;
/// That ratio of exactly three cables, 0 for any other number.
double jam_ratio(double inner_diameter_mm, const std::vector<double>& cable_diameters_mm);

/// Outer diameter of the thickest cable of the catalogue, 0 where it has none.
double thickest_cable_mm(const Catalogue& catalogue);

}  // namespace spadework
