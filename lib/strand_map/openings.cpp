#include "strand_map/openings.hpp"

#include <algorithm>

namespace spadework {

namespace {

void add_pieces(Row& row, int pieces, int openings) {
    row.openings.insert(row.openings.end(), static_cast<std::size_t>(pieces), openings);
}

}  // namespace

bool Numbers::take(int number) {
    return number > 0 && taken_.insert(number).second;
}

int Numbers::take_lowest() {
    while (taken_.contains(lowest_))
        ++lowest_;
    taken_.insert(lowest_);
    return lowest_;
}

bool has_opening(const Row& row, int number) {
    if (row.openings.empty()) return true;
    int all = 0;
    for (const int openings : row.openings)
        all += openings;
    return number <= all;
}

Opening opening_at(const Row& row, int number) {
    const int first = row.first_is_old ? 0 : 1;
    int left = number;
    for (std::size_t i = 0; i < row.openings.size(); ++i) {
        const bool last = i + 1 == row.openings.size();
        if (left <= row.openings[i] || last) return {first + static_cast<int>(i), left};
        left -= row.openings[i];
    }
    return {1, number};
}

int number_of(const Row& row, const Opening& opening) {
    const int before = opening.piece - (row.first_is_old ? 0 : 1);
    int number = opening.number;
    for (int i = 0; i < before && i < static_cast<int>(row.openings.size()); ++i)
        number += row.openings[static_cast<std::size_t>(i)];
    return number;
}

Row hub_ports(const Scenario& scenario, const Plan& plan) {
    Row row;
    row.first_is_old = scenario.hub.free_optic_ports > 0;
    if (row.first_is_old) row.openings.push_back(scenario.hub.free_optic_ports);
    for (const Pieces& pieces : plan.hub_gear) {
        add_pieces(row, pieces.count,
                   scenario.catalogue.hub_gear[static_cast<std::size_t>(pieces.product)].optic_ports);
    }
    return row;
}

Row gear_ports(const Scenario& scenario, const Plan& plan, BuildingIndex building) {
    Row row;
    for (const PlannedGear& gear : plan.building_gear) {
        if (gear.building != building) continue;
        add_pieces(row, gear.pieces.count,
                   scenario.catalogue.building_gear[static_cast<std::size_t>(gear.pieces.product)].optic_ports);
    }
    return row;
}

Row enclosure_adapters(const Scenario& scenario, const PlannedEnclosure& enclosure) {
    Row row;
    for (const Pieces& pieces : enclosure.products) {
        add_pieces(row, pieces.count, scenario.catalogue.enclosures[static_cast<std::size_t>(pieces.product)].adapters);
    }
    return row;
}

}  // namespace spadework
