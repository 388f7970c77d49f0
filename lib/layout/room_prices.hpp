#pragma once

// Prices for room in existing ducts. A solver knows no room; a price on every cable that passes a full duct lets it see
// the shortage, and proves a bound: with price p for each cable on a duct with room r, every plan that keeps to the
// room costs at least (the bound with prices) - sum of r * p, because it passes each duct at most r times (Lagrangian
// relaxation; Geoffrion 1974).

#include <vector>

#include "layout/routed_layout.hpp"
#include "routing/network.hpp"

namespace spadework {

class RoomPrices {
public:
    explicit RoomPrices(const Network& network);

    /// Whether any edge has limited room at all.
    [[nodiscard]] bool any_room() const { return !limited_.empty(); }

    /// The network with each price added to its edge's passage cost.
    [[nodiscard]] Network priced() const;

    /// Sum of room times price: what a bound on the priced network counts too much.
    [[nodiscard]] graph::Cost rebate() const;

    /// Moves the prices towards the best bound: up where the routes pass a duct more often than it has room, down where
    /// they leave room unused, by `share` of the step that would close a gap of `gap` cost units were every price right
    /// (Polyak 1969). Returns false when no duct is over its room.
    bool adjust(const RoutedLayout& routed, graph::Cost gap, double share);

private:
    struct Limited {
        std::size_t edge = 0;
        graph::Cost step = 0;  ///< A fair share of digging the segment instead.
        graph::Cost price = 0;
        bool was_over = false;
    };

    Network network_;
    std::vector<Limited> limited_;
};

}  // namespace spadework
