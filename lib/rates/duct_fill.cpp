#include "rates/duct_fill.hpp"

#include <algorithm>
#include <numeric>

namespace spadework {

namespace {

/// Room for the rounding of sums of squares.
constexpr double rounding_share = 1e-8;

}  // namespace

double duct_fill(double inner_diameter_mm, const std::vector<double>& cable_diameters_mm) {
    double squares = 0;
    for (const double diameter : cable_diameters_mm)
        squares += diameter * diameter;
    return squares / (inner_diameter_mm * inner_diameter_mm);
}

Percent fill_limit(std::size_t cables, const FillRules& rules) {
    if (cables <= 1) return rules.one_cable;
    return cables == 2 ? rules.two_cables : rules.more_cables;
}

bool is_within_fill(double inner_diameter_mm, const std::vector<double>& cable_diameters_mm, const FillRules& rules) {
    const double limit = fill_limit(cable_diameters_mm.size(), rules).fraction();
    return duct_fill(inner_diameter_mm, cable_diameters_mm) <= limit + rounding_share;
}

double cables_by_area(double inner_diameter_mm, double cable_diameter_mm, Percent share) {
    return share.fraction() * inner_diameter_mm * inner_diameter_mm / (cable_diameter_mm * cable_diameter_mm);
}

int room_by_fill(const DuctBore& bore, double cable_diameter_mm, const FillRules& rules, int most) {
    std::vector<double> cables = bore.cable_diameters_mm;
    int room = 0;
    for (; room < most; ++room) {
        cables.push_back(cable_diameter_mm);
        if (!is_within_fill(bore.inner_diameter_mm, cables, rules)) break;
    }
    return room;
}

double jam_ratio(double inner_diameter_mm, const std::vector<double>& cable_diameters_mm) {
    if (cable_diameters_mm.size() != 3) return 0;
    const double sum = std::accumulate(cable_diameters_mm.begin(), cable_diameters_mm.end(), 0.0);
    return inner_diameter_mm / (sum / 3);
}

double thickest_cable_mm(const Catalogue& catalogue) {
    double thickest = 0;
    for (const CableProduct& cable : catalogue.cables)
        thickest = std::max(thickest, cable.diameter_mm);
    return thickest;
}

}  // namespace spadework
