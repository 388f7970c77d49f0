#include "support/street_problem.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <string_view>
#include <utility>

#include <fmt/format.h>

namespace spadework::bench {

namespace {

/// Money for a metre of trench, invented.
constexpr std::array<std::pair<std::string_view, std::int64_t>, 7> kRates = {{{"verge", 15},
                                                                              {"park", 20},
                                                                              {"yard", 45},
                                                                              {"paving", 45},
                                                                              {"asphalt path", 80},
                                                                              {"street", 120},
                                                                              {"main road", 250}}};
constexpr std::int64_t kThousandthsADecimetre = 100;  ///< Of a price for a metre: costs are thousandths of money.

std::int64_t rate_on(std::string_view ground) {
    const auto rate = std::find_if(kRates.begin(), kRates.end(), [&](const auto& r) { return r.first == ground; });
    if (rate == kRates.end()) throw std::logic_error(fmt::format("no price is invented for {}", ground));
    return rate->second;
}

}  // namespace

graph::SharedCostProblem street_problem(const StreetMap& map, Dice& dice) {
    graph::SharedCostProblem problem;
    problem.vertex_count = static_cast<graph::VertexId>(map.places.size());
    for (const MapSegment& segment : map.segments) {
        const MapPlace& a = map.places[static_cast<std::size_t>(segment.from)];
        const MapPlace& b = map.places[static_cast<std::size_t>(segment.to)];
        const auto east = static_cast<double>(a.x_dm - b.x_dm);
        const auto north = static_cast<double>(a.y_dm - b.y_dm);
        const auto length = static_cast<graph::Length>(std::llround(std::hypot(east, north)));
        const graph::Cost opening =
            (length * rate_on(segment.ground) + 10 * segment.crossing_charge) * kThousandthsADecimetre;
        problem.edges.push_back({segment.from, segment.to, opening, length, 0});
    }
    for (std::size_t p = 0; p < map.places.size(); ++p) {
        if (map.places[p].kind != MapPlaceKind::building) continue;
        problem.demands.push_back({static_cast<graph::VertexId>(p), dice.between(70, 800), 1});
    }
    problem.roots = {{map.hub_place, 0}};
    return problem;
}

}  // namespace spadework::bench
