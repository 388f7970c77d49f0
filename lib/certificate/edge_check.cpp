#include "certificate/edge_check.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "rates/opening_rates.hpp"

namespace spadework::certificate {

namespace {

/// Ducts and pulling of one cable through a segment, in solver units, rounded down. The hours a metre are a fraction,
/// so a little is taken off for the arithmetic.
Wide passage_units(const OpeningMethod& method, Length length, const Labour& labour, std::int64_t units_a_minor) {
    const long double a_metre = static_cast<long double>(method.duct_per_metre.thousandths()) +
                                static_cast<long double>(labour.installer_rate.thousandths()) *
                                    static_cast<long double>(method.pull_hours_per_metre);
    const long double exact =
        a_metre * static_cast<long double>(length.millimetres()) * static_cast<long double>(units_a_minor) / 1e6L;
    return static_cast<Wide>(std::floor(exact * (1.0L - 1e-14L)));
}

class EdgeCheck {
public:
    EdgeCheck(const Scenario& scenario, const std::vector<CertifiedEdge>& edges, std::int64_t units_a_minor,
              const std::vector<CableCharge>& cables, Coils coils)
        : scenario_(scenario),
          edges_(edges),
          units_a_minor_(units_a_minor),
          cables_(cables),
          edges_of_(scenario.segments.size()),
          coil_at_(scenario.places.size(), 0) {
        if (coils == Coils::charged) list_coils();
    }

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

    void list_coils() {
        for (std::size_t p = 0; p < scenario_.places.size(); ++p) {
            const auto place = static_cast<PlaceIndex>(p);
            const auto stands_here = [place](const Building& building) { return building.place == place; };
            const bool end = place == scenario_.hub.place || std::ranges::any_of(scenario_.buildings, stands_here);
            if (!end && scenario_.places[p].kind == PlaceKind::handhole) coil_at_[p] = half_coil(scenario_);
        }
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

std::vector<std::string> edge_faults(const Scenario& scenario, const std::vector<CertifiedEdge>& edges,
                                     std::int64_t units_a_minor, const std::vector<CableCharge>& cables, Coils coils) {
    return EdgeCheck(scenario, edges, units_a_minor, cables, coils).run();
}

}  // namespace spadework::certificate
