#pragma once

// Random small sites for exhaustive solvers.

#include <algorithm>
#include <vector>

#include "layout/support/drawn_site.hpp"

namespace spadework::drawing {

struct MapFamily {
    int places = 6;  ///< Hub included.
    int segments = 8;
    int buildings = 3;
    bool several_links = false;          ///< Buildings with up to three links.
    std::int64_t dearest_ground = 6000;  ///< Cents a metre.
    std::int64_t cheapest_ground = 100;
};

/// Different places other than the hub, as many as there are buildings, ascending.
inline std::vector<PlaceIndex> some_places(Dice& dice, const MapFamily& family) {
    std::vector<PlaceIndex> chosen;
    while (static_cast<int>(chosen.size()) < std::min(family.buildings, family.places - 1)) {
        const auto at = static_cast<PlaceIndex>(dice.between(1, family.places - 1));
        if (std::find(chosen.begin(), chosen.end(), at) == chosen.end()) chosen.push_back(at);
    }
    std::sort(chosen.begin(), chosen.end());
    return chosen;
}

/// A connected map: a random tree and some segments more, lengths in whole metres, three grounds.
inline Scenario random_map(Dice& dice, const MapFamily& family) {
    Scenario site = bare_site();
    site.grounds.clear();
    // So large that one cable always holds a trunk.
    site.catalogue.cables.push_back(cable(72, 300));
    site.catalogue.enclosures.push_back(enclosure(96, 39000));
    for (int g = 0; g < 3; ++g) {
        add_ground(
            site, static_cast<double>(dice.between(family.cheapest_ground / 100, family.dearest_ground / 100)) * 100.0);
    }
    for (int p = 1; p < family.places; ++p)
        add_place(site);
    for (int s = 0; s < family.segments; ++s) {
        const bool tree = s + 1 < family.places;
        const auto a = static_cast<PlaceIndex>(tree ? s + 1 : dice.between(1, family.places - 1));
        const auto b = static_cast<PlaceIndex>(dice.between(0, a - 1));
        add_segment(site, b, a, static_cast<double>(dice.between(5, 90)));
        site.segments.back().ground = static_cast<int>(dice.between(0, 2));
        if (dice.one_in(5)) {
            site.segments.back().charges = {
                {"crossing", ChargeCategory::crossing, Money::from_minor(dice.between(1, 90) * 1000)}};
        }
    }
    for (const PlaceIndex at : some_places(dice, family))
        add_building(site, at, family.several_links ? static_cast<int>(dice.between(1, 3)) : 1);
    for (Place& place : site.places)
        place.enclosure_extra = Money::from_minor(dice.one_in(3) ? dice.between(0, 300) * 100 : 0);
    return site;
}

/// Buildings across a road, each with tracks to two of the places where it may be crossed. A crossing costs about as
/// much as the cable of two tracks, so that it does not pay to go around by another building, and half of each crossing
/// would do for prices.
inline Scenario crossings_site(Dice& dice, int crossings, int buildings) {
    Scenario site = bare_site();
    const int road = add_ground(site, static_cast<double>(dice.between(80, 120)) * 100.0);
    const int track = add_ground(site, 5);
    site.catalogue.cables = {cable(4, 200), cable(48, 900)};
    for (int c = 0; c < crossings; ++c)
        site.segments[static_cast<std::size_t>(add_segment(site, 0, add_place(site), 10))].ground = road;
    for (int b = 0; b < buildings; ++b) {
        const PlaceIndex at = add_place(site);
        for (const int c : {b % crossings, (b + 1) % crossings}) {
            const SegmentIndex s = add_segment(site, 1 + c, at, static_cast<double>(dice.between(230, 270)));
            site.segments[static_cast<std::size_t>(s)].ground = track;
        }
        add_building(site, at);
    }
    return site;
}

}  // namespace spadework::drawing
