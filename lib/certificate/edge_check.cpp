#include "certificate/edge_check.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "rates/opening_rates.hpp"

namespace spadework::certificate {

namespace {

class EdgeCheck {
public:
    EdgeCheck(const Scenario& scenario, const std::vector<CertifiedEdge>& edges, std::int64_t units_a_minor,
              const std::vector<CableCharge>& cables, Coils coils)
        : scenario_(scenario),
          edges_(edges),
          units_a_minor_(units_a_minor),
          cables_(cables),
          edges_of_(scenario.segments.size()),
          coil_at_(coils == Coils::charged ? half_coils_by_place(scenario)
                                           : std::vector<std::int64_t>(scenario.places.size(), 0)) {}

    std::vector<std::string> run() {
        check_edges_exist();
        if (!faults_.empty()) return faults_;
        for (std::size_t s = 0; s < scenario_.segments.size() && faults_.size() < most_faults; ++s)
            check_segment(static_cast<SegmentIndex>(s));
        return faults_;
    }

private:
    void fault(const std::string& sentence) {
        if (faults_.size() < most_faults) faults_.push_back(sentence);
    }

    /// Millimetres of cable through a segment, with its share of coils.
    [[nodiscard]] Wide cable_through(const Segment& segment) const {
        return Wide{segment.length.millimetres()} + coil_at_[static_cast<std::size_t>(segment.from)] +
               coil_at_[static_cast<std::size_t>(segment.to)];
    }

    void check_edges_exist() {
        for (std::size_t e = 0; e < edges_.size(); ++e) {
            const CertifiedEdge& edge = edges_[e];
            const std::vector<Way> ways = ways_of(scenario_, edge.segment);
            const std::string& id = scenario_.segments[static_cast<std::size_t>(edge.segment)].id;
            if (edge.way >= static_cast<int>(ways.size())) {
                fault(fmt::format("segment {} has no way {} that may be used", id, edge.way));
            } else if (edge.room != ways[static_cast<std::size_t>(edge.way)].room) {
                fault(fmt::format("segment {}, way {}, takes {} cables, not {} (-1: no limit)", id, edge.way,
                                  ways[static_cast<std::size_t>(edge.way)].room, edge.room));
            } else if (edge.room_price > 0 && edge.room < 0) {
                fault(fmt::format("segment {}, way {}, has a price on room that is not limited", id, edge.way));
            }
            edges_of_[static_cast<std::size_t>(edge.segment)].push_back(e);
        }
    }

    void check_segment(SegmentIndex segment) {
        const std::vector<Way> ways = ways_of(scenario_, segment);
        for (int w = 0; w < static_cast<int>(ways.size()); ++w) {
            std::string why = "no edge stands for it";
            bool stands = false;
            for (const std::size_t e : edges_of_[static_cast<std::size_t>(segment)]) {
                const std::string dearer = how_dearer(edges_[e], ways[static_cast<std::size_t>(w)], w);
                stands = stands || dearer.empty();
                if (edges_[e].way == w) why = dearer;
            }
            if (stands) continue;
            const std::string& id = scenario_.segments[static_cast<std::size_t>(segment)].id;
            fault(fmt::format("segment {}, way {}: {}", id, w, why));
        }
    }

    /// How the edge charges more than the way; "" when it does not.
    [[nodiscard]] std::string how_dearer(const CertifiedEdge& edge, const Way& way, int number) const {
        const Wide opening = static_cast<Wide>(way.opening.minor()) * units_a_minor_;
        if (edge.opening > opening) {
            return fmt::format("an opening of {} is above the {} that it costs", edge.opening,
                               static_cast<std::int64_t>(opening));
        }
        const Segment& segment = scenario_.segments[static_cast<std::size_t>(edge.segment)];
        const Wide passage = passage_units(*way.method, segment.length, scenario_.labour, units_a_minor_);
        const Wide room_price = edge.way == number ? edge.room_price : 0;
        for (const CableCharge& cable : cables_) {
            const Wide metres = static_cast<Wide>(cable.least.thousandths_a_metre) * cable_through(segment) *
                                units_a_minor_ / 1'000'000;
            const Wide least = metres + (passage + room_price) * cable.least.pieces;
            const Wide charged =
                static_cast<Wide>(cable.weight) * edge.length + static_cast<Wide>(cable.multiplicity) * edge.passage;
            if (charged > least) {
                return fmt::format("{} is charged more than the {} that its price, duct and pulling come to",
                                   cable.name, static_cast<double>(least));
            }
        }
        return "";
    }

    const Scenario& scenario_;
    const std::vector<CertifiedEdge>& edges_;
    std::int64_t units_a_minor_;
    const std::vector<CableCharge>& cables_;
    std::vector<std::vector<std::size_t>> edges_of_;  ///< By segment.
    std::vector<std::int64_t> coil_at_;               ///< By place: millimetres for each segment that ends there.
    std::vector<std::string> faults_;
};

}  // namespace

std::int64_t half_coil(const Scenario& scenario) {
    return scenario.rules.slack.coil_per_handhole.millimetres() / 2;
}

std::vector<std::int64_t> half_coils_by_place(const Scenario& scenario) {
    std::vector<std::int64_t> coils;
    for (const Place& place : scenario.places)
        coils.push_back(place.kind == PlaceKind::handhole ? half_coil(scenario) : 0);
    coils[static_cast<std::size_t>(scenario.hub.place)] = 0;
    for (const Building& building : scenario.buildings)
        coils[static_cast<std::size_t>(building.place)] = 0;
    return coils;
}

Wide passage_units(const OpeningMethod& method, Length length, const Labour& labour, std::int64_t units_a_minor) {
    const long double a_metre = static_cast<long double>(method.duct_per_metre.thousandths()) +
                                static_cast<long double>(labour.installer_rate.thousandths()) *
                                    static_cast<long double>(method.pull_hours_per_metre);
    const long double exact =
        a_metre * static_cast<long double>(length.millimetres()) * static_cast<long double>(units_a_minor) / 1e6L;
    return static_cast<Wide>(std::floor(exact * (1.0L - 1e-14L)));
}

std::vector<RealEdge> real_edges(const Scenario& scenario, const RoutesEvidence& evidence, Coils coils) {
    const std::vector<std::int64_t> none(scenario.places.size(), 0);
    const std::vector<std::int64_t> coil_at = coils == Coils::charged ? half_coils_by_place(scenario) : none;
    std::set<std::pair<SegmentIndex, int>> with_edge;
    for (const CertifiedEdge& edge : evidence.edges)
        with_edge.emplace(edge.segment, edge.way);
    std::vector<RealEdge> real;
    for (const CertifiedEdge& edge : evidence.edges) {
        const Segment& segment = scenario.segments[static_cast<std::size_t>(edge.segment)];
        const std::vector<Way> ways = ways_of(scenario, edge.segment);
        const auto passage = [&](int way) {
            return passage_units(*ways[static_cast<std::size_t>(way)].method, segment.length, scenario.labour,
                                 evidence.units_a_minor);
        };
        RealEdge one;
        one.millimetres = segment.length.millimetres() + coil_at[static_cast<std::size_t>(segment.from)] +
                          coil_at[static_cast<std::size_t>(segment.to)];
        one.passage = passage(edge.way) + edge.room_price;
        for (int way = 0; way < static_cast<int>(ways.size()); ++way) {
            if (!with_edge.contains({edge.segment, way})) one.passage = std::min(one.passage, passage(way));
        }
        real.push_back(one);
    }
    return real;
}

Wide real_charge(const LeastCable& cable, const RealEdge& edge, std::int64_t units_a_minor) {
    const Wide metres = static_cast<Wide>(cable.thousandths_a_metre) * edge.millimetres * units_a_minor / 1'000'000;
    return metres + edge.passage * cable.pieces;
}

std::vector<Wide> left_on_edges(const Scenario& scenario, const RoutesEvidence& evidence, const CableCharge& cable,
                                Coils coils) {
    const std::vector<RealEdge> real = real_edges(scenario, evidence, coils);
    std::vector<Wide> left;
    for (std::size_t e = 0; e < real.size(); ++e) {
        const Wide charged = static_cast<Wide>(cable.weight) * evidence.edges[e].length +
                             static_cast<Wide>(cable.multiplicity) * evidence.edges[e].passage;
        left.push_back(std::max<Wide>(0, real_charge(cable.least, real[e], evidence.units_a_minor) - charged));
    }
    return left;
}

std::vector<std::string> edge_faults(const Scenario& scenario, const std::vector<CertifiedEdge>& edges,
                                     std::int64_t units_a_minor, const std::vector<CableCharge>& cables, Coils coils) {
    return EdgeCheck(scenario, edges, units_a_minor, cables, coils).run();
}

}  // namespace spadework::certificate
