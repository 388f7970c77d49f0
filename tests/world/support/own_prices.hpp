#pragma once

// Prices of the parts of a plan, worked out from the scenario's numbers by code that shares nothing with lib/rates,
// lib/layout and lib/costing: what a contractor would reckon on paper, line by line, each line rounded half up.

#include <cstdint>
#include <map>
#include <optional>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework::own {

using Cents = std::int64_t;

/// One way through a segment: a method of its ground, its duct, or its poles, numbered as in a plan.
struct OwnWay {
    const OpeningMethod* method = nullptr;
    int room = -1;
    Cents opening = 0;
};
std::vector<OwnWay> ways(const Scenario& site, int segment);

/// What a cable meets on its way.
struct Run {
    std::int64_t millimetres = 0;
    int handholes = 0;
    double pull_hours = 0;
    std::map<std::int64_t, std::int64_t> duct;  ///< Millimetres of new duct by price a metre (thousandths of a cent).

    void add(const Segment& segment, const OpeningMethod& method);
};

/// Length of a cable with rise, coils and allowance.
std::int64_t with_slack(const Scenario& site, const Run& run);

/// A cable of the cheapest product that holds `strands`, with both ends and its share of work along the way.
/// Nothing when no single product is large enough.
std::optional<Cents> cable(const Scenario& site, int strands, int in_use, const Run& run);
/// How many joints that product needs on the way (for splices of a link); 0 where there is none.
int joints(const Scenario& site, int strands, int in_use, const Run& run);

/// Glass in a cable of that product: as it is ordered from the factory, or as it is cut to be spliced.
std::int64_t glass(const Scenario& site, int strands, int in_use, const Run& run);

int strands_of(const Scenario& site, int links);
/// Strands of a trunk with spares and headroom.
int trunk_strands(const Scenario& site, int in_use);

/// Optics, cords and testing of one link; nothing when no optic carries it.
std::optional<Cents> link(const Scenario& site, BitRate rate, std::int64_t glass, int pairs, int splices);
/// Gear with so many optic ports for a building's devices.
std::optional<Cents> building_gear(const Scenario& site, const Building& building, int ports, BitRate rate);
std::optional<Cents> hub_gear(const Scenario& site, int ports, BitRate rate);
std::optional<Cents> enclosures(const Scenario& site, int adapters);

/// Work at a price an hour.
Cents for_time(UnitPrice price, std::int64_t seconds);

/// Direct cost with contingency and tax.
Cents quoted(const Scenario& site, Cents direct);

int links_of(const Building& building);
BitRate fastest(const Building& building);

}  // namespace spadework::own
