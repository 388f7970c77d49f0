#include "certificate/two_ways.hpp"

#include <algorithm>
#include <map>
#include <queue>
#include <vector>

#include "certificate/edge_distances.hpp"

namespace spadework::certificate {

namespace {

/// A segment on the way from one place to the next.
struct Move {
    PlaceIndex to = 0;
    SegmentIndex segment = 0;
};

class TwoWays {
public:
    TwoWays(const Scenario& scenario, const ChainEvidence& evidence)
        : scenario_(scenario), evidence_(evidence), moves_(scenario.places.size()) {
        std::vector<char> usable(scenario.segments.size(), 0);
        for (const CertifiedEdge& edge : evidence.edges)
            usable[static_cast<std::size_t>(edge.segment)] = 1;
        for (std::size_t s = 0; s < usable.size(); ++s) {
            if (usable[s] == 0) continue;
            const Segment& segment = scenario.segments[s];
            moves_[static_cast<std::size_t>(segment.from)].push_back({segment.to, static_cast<SegmentIndex>(s)});
            moves_[static_cast<std::size_t>(segment.to)].push_back({segment.from, static_cast<SegmentIndex>(s)});
        }
    }

    /// Two ways of least cost: the cheapest one, and the cheapest of what is left, which may take back parts of the
    /// first (Suurballe 1974).
    std::optional<Wide> to(std::size_t building) {
        set_prices(building);
        const PlaceIndex place = scenario_.buildings[building].place;
        const auto first = cheapest_way(place);
        if (!first) return std::nullopt;
        for (PlaceIndex at = place; at != scenario_.hub.place;) {
            const Move& back = came_by_[static_cast<std::size_t>(at)];
            passed_from_[static_cast<std::size_t>(back.segment)] = back.to;
            at = back.to;
        }
        return *first + *cheapest_way(place);
    }

private:
    /// A segment costs what the cheapest of its ways does.
    void set_prices(std::size_t building) {
        DirectedCharges of_edge = {std::vector<Wide>(evidence_.edges.size(), 0),
                                   std::vector<Wide>(evidence_.edges.size(), 0)};
        add_prices(evidence_.proof.joining_prices[building], of_edge);
        prices_.assign(scenario_.segments.size(), most_distance);
        twice_.assign(scenario_.segments.size(), most_distance);
        passed_from_.assign(scenario_.segments.size(), -1);
        for (std::size_t e = 0; e < evidence_.edges.size(); ++e) {
            const auto segment = static_cast<std::size_t>(evidence_.edges[e].segment);
            const Wide a_pass = evidence_.proof.pass_charges[e];
            prices_[segment] = std::min(prices_[segment], of_edge[0][e] + of_edge[1][e] + a_pass);
            twice_[segment] = std::min(twice_[segment], of_edge[0][e] + of_edge[1][e] + 2 * a_pass);
        }
    }

    /// What a move costs a second way; nothing where it may not be made.
    std::optional<Wide> price_of(const Move& move, PlaceIndex from) {
        const auto segment = static_cast<std::size_t>(move.segment);
        if (passed_from_[segment] < 0) return prices_[segment];
        if (is_bridge(move.segment)) return twice_[segment] - prices_[segment];
        if (passed_from_[segment] == from) return std::nullopt;
        return -prices_[segment];
    }

    /// By Bellman's and Ford's algorithm, as some moves of a second way cost less than nothing.
    std::optional<Wide> cheapest_way(PlaceIndex place) {
        std::vector<std::optional<Wide>> cost(moves_.size());
        came_by_.assign(moves_.size(), {});
        cost[static_cast<std::size_t>(scenario_.hub.place)] = 0;
        std::queue<PlaceIndex> waiting({scenario_.hub.place});
        while (!waiting.empty()) {
            const PlaceIndex here = waiting.front();
            waiting.pop();
            for (const Move& move : moves_[static_cast<std::size_t>(here)]) {
                const auto price = price_of(move, here);
                if (!price) continue;
                const Wide along = *cost[static_cast<std::size_t>(here)] + *price;
                auto& known = cost[static_cast<std::size_t>(move.to)];
                if (known && *known <= along) continue;
                known = along;
                came_by_[static_cast<std::size_t>(move.to)] = {here, move.segment};
                waiting.push(move.to);
            }
        }
        return cost[static_cast<std::size_t>(place)];
    }

    /// Whether the map has no way round a segment.
    bool is_bridge(SegmentIndex segment) {
        const auto known = bridges_.find(segment);
        if (known != bridges_.end()) return known->second;
        const Segment& without = scenario_.segments[static_cast<std::size_t>(segment)];
        std::vector<char> reached(moves_.size(), 0);
        std::vector<PlaceIndex> waiting{without.from};
        while (!waiting.empty()) {
            const auto at = static_cast<std::size_t>(waiting.back());
            waiting.pop_back();
            if (reached[at] != 0) continue;
            reached[at] = 1;
            for (const Move& move : moves_[at]) {
                if (move.segment != segment) waiting.push_back(move.to);
            }
        }
        return bridges_[segment] = reached[static_cast<std::size_t>(without.to)] == 0;
    }

    const Scenario& scenario_;
    const ChainEvidence& evidence_;
    std::vector<std::vector<Move>> moves_;  ///< By place.
    std::vector<Wide> prices_;              ///< By segment, of its cheapest way.
    std::vector<Wide> twice_;  ///< By segment, of both passes of a bridge: by one way, for two cost no less.
    std::vector<PlaceIndex> passed_from_;   ///< By segment where the first way came from to pass it, or -1.
    std::vector<Move> came_by_;             ///< By place the move back by which it was reached.
    std::map<SegmentIndex, bool> bridges_;  ///< As far as known.
};

}  // namespace

std::optional<Wide> two_ways_sum(const Scenario& scenario, const ChainEvidence& evidence) {
    TwoWays ways(scenario, evidence);
    Wide sum = 0;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        const auto least = ways.to(b);
        if (!least) return std::nullopt;
        sum += *least;
    }
    return sum;
}

}  // namespace spadework::certificate
