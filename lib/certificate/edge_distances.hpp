#pragma once

// Plain shortest paths over a certificate's edges.

#include <array>
#include <optional>
#include <vector>

#include "certificate/least_figures.hpp"
#include "layout/bound_certificate.hpp"
#include "scenario/scenario.hpp"

namespace spadework::certificate {

/// Larger charges and distances count as these: a bound may be too small. Sums of them fit in 128 bits.
constexpr Wide most_charge = Wide{1} << 60U;
constexpr Wide most_distance = Wide{1} << 100U;

/// What passing each edge costs, from its tail to its head and the other way.
using DirectedCharges = std::array<std::vector<Wide>, 2>;

class EdgeDistances {
public:
    EdgeDistances(const Scenario& scenario, const std::vector<CertifiedEdge>& edges);

    /// Nothing passes an edge that is closed.
    EdgeDistances(const Scenario& scenario, const std::vector<CertifiedEdge>& edges, const std::vector<char>& closed);

    /// What the cheapest path from each place to the target costs; nothing where there is none.
    [[nodiscard]] std::vector<std::optional<Wide>> to(PlaceIndex target, const DirectedCharges& charges) const;

private:
    /// One way into a place.
    struct Hop {
        PlaceIndex from = 0;
        std::size_t edge = 0;
        std::size_t direction = 0;
    };
    std::vector<std::vector<Hop>> into_;  ///< By place.
};

/// Adds prices to charges, each in its direction.
void add_prices(const std::vector<graph::EdgePrice>& prices, DirectedCharges& charges);

}  // namespace spadework::certificate
