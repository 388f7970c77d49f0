#pragma once

// What cable to order, and what ordering in steps wastes.

#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "units/length.hpp"
#include "units/money.hpp"

namespace spadework {

/// Cables of one product and one ordered length.
struct OrderRow {
    int product = 0;  ///< Index into catalogue.cables.
    Length length;    ///< Of each, as ordered.
    int pieces = 0;
    Length ordered;           ///< Of all.
    Length needed;            ///< Of all, with slack.
    Money amount;             ///< Of all: the sum of the bill's lines for them, without their ends.
    Money waste;              ///< Of that, what pays for length beyond need.
    std::vector<int> cables;  ///< Indices into the plan's cables, ascending.
};

struct CableOrder {
    std::vector<OrderRow> rows;  ///< By strand count, product, then length.
    Length ordered;
    Length needed;
    Money amount;
    Money waste;
    /// Reels in place of single lengths, a row each: empty where cables come with factory-made ends, which nobody can
    /// cut, or where it would save nothing.
    std::vector<OrderRow> reels;
    Money saved_by_reels;

    /// All rows in one, without a length of its own: pieces, metres and money.
    [[nodiscard]] OrderRow total() const;
    [[nodiscard]] OrderRow total_of_reels() const;
};

/// The order for a plan's cables. Reels are filled longest cable first, each into the first reel that still has room
/// for it (first-fit decreasing), none beyond the product's longest length: a heuristic, good enough to offer. A cable
/// that is itself longer has its pieces to itself.
CableOrder cable_order(const Scenario& scenario, const Plan& plan);

}  // namespace spadework
