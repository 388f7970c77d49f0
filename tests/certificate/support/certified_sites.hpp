#pragma once

// Random small sites with every kind of figure that certificates speak of, and certificates for them.

#include <optional>

#include "certificate/certificate.hpp"
#include "comparison/comparison.hpp"
#include "world/support/small_maps.hpp"

namespace spadework::drawing {

/// A random map with ducts to pull through, a second way of some grounds, existing ducts of little room, poles and
/// joints.
inline Scenario random_certified_site(Dice& dice) {
    MapFamily family;
    family.places = static_cast<int>(dice.between(4, 8));
    family.segments = family.places + static_cast<int>(dice.between(0, 4));
    family.buildings = static_cast<int>(dice.between(2, 4));
    family.several_links = dice.one_in(2);
    Scenario site = random_map(dice, family);
    site.rules.most_enclosures = static_cast<int>(dice.between(1, 3));
    site.rules.contingency = Percent::from_percent(static_cast<double>(dice.between(0, 12)));
    site.rules.tax = Percent::from_percent(static_cast<double>(dice.between(0, 20)));
    site.rules.slack.ordering_allowance = Percent::from_thousandths(dice.between(0, 7000));
    if (dice.one_in(3)) site.rules.termination = Termination::spliced;
    for (Ground& ground : site.grounds) {
        ground.methods.front().duct_per_metre = cents(static_cast<double>(dice.between(0, 3)) * 70.0);
        ground.methods.front().pull_hours_per_metre = static_cast<double>(dice.between(0, 3)) * 0.013;
        if (!dice.one_in(3)) continue;
        ground.methods.push_back(ground.methods.front());
        ground.methods.back().id = "plough";
        ground.methods.back().set_up = Money::from_minor(dice.between(0, 40000));
        ground.methods.back().duct_per_metre = cents(40);
    }
    for (Segment& segment : site.segments) {
        if (dice.one_in(4)) segment.duct_room = static_cast<int>(dice.between(1, 2));
        segment.pole_line = dice.one_in(6);
    }
    for (CableProduct& product : site.catalogue.cables) {
        if (dice.one_in(2)) product.longest = Length::from_metres(static_cast<double>(dice.between(20, 120)));
    }
    return site;
}

/// The certificate of a layout planned alone; nothing where it cannot be built.
inline std::optional<certificate::Certificate> certified(const Scenario& site, LayoutKind layout) {
    Comparison comparison;
    comparison.layouts.push_back(assess(site, design(layout, site, {.seconds = 5})));
    const auto all = certificate::certificates_of(site, comparison);
    if (all.empty()) return std::nullopt;
    return all.front();
}

}  // namespace spadework::drawing
