#include "certificate/figure_check.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "rates/opening_rates.hpp"

namespace spadework::certificate {

namespace {

constexpr std::size_t most_faults = 10;

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

class FigureCheck {
public:
    FigureCheck(const Scenario& scenario, const FanOutFigures& figures, const RoutesEvidence& evidence)
        : scenario_(scenario), figures_(figures), evidence_(evidence), edges_of_(scenario.segments.size()) {}

    std::vector<std::string> run() {
        if (evidence_.demands.size() != figures_.cables.size()) {
            return {fmt::format("the evidence has {} demands, the layout has {} cables", evidence_.demands.size(),
                                figures_.cables.size())};
        }
        check_edges_exist();
        if (faults_.empty()) {
            for (std::size_t s = 0; s < scenario_.segments.size() && faults_.size() < most_faults; ++s)
                check_segment(static_cast<SegmentIndex>(s));
            check_roots();
        }
        return faults_;
    }

private:
    void fault(const std::string& sentence) {
        if (faults_.size() < most_faults) faults_.push_back(sentence);
    }

    void check_edges_exist() {
        for (std::size_t e = 0; e < evidence_.edges.size(); ++e) {
            const CertifiedEdge& edge = evidence_.edges[e];
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
                const std::string dearer = how_dearer(evidence_.edges[e], ways[static_cast<std::size_t>(w)], w);
                stands = stands || dearer.empty();
                if (evidence_.edges[e].way == w) why = dearer;
            }
            if (stands) continue;
            const std::string& id = scenario_.segments[static_cast<std::size_t>(segment)].id;
            fault(fmt::format("segment {}, way {}: {}", id, w, why));
        }
    }

    /// How the edge charges more than the way; "" when it does not.
    [[nodiscard]] std::string how_dearer(const CertifiedEdge& edge, const Way& way, int number) const {
        const Wide opening = static_cast<Wide>(way.opening.minor()) * evidence_.units_a_minor;
        if (edge.opening > opening) {
            return fmt::format("an opening of {} is above the {} that it costs", edge.opening,
                               static_cast<std::int64_t>(opening));
        }
        const Length length = scenario_.segments[static_cast<std::size_t>(edge.segment)].length;
        const Wide passage = passage_units(*way.method, length, scenario_.labour, evidence_.units_a_minor);
        const Wide room_price = edge.way == number ? edge.room_price : 0;
        for (std::size_t d = 0; d < evidence_.demands.size(); ++d) {
            const LeastCable& cable = figures_.cables[d];
            const Wide metres = static_cast<Wide>(cable.thousandths_a_metre) * length.millimetres() *
                                evidence_.units_a_minor / 1'000'000;
            const Wide least = metres + (passage + room_price) * cable.pieces;
            const Wide charged = static_cast<Wide>(evidence_.demands[d].weight) * edge.length +
                                 static_cast<Wide>(evidence_.demands[d].multiplicity) * edge.passage;
            if (charged > least) {
                return fmt::format(
                    "the cable of {} is charged more than the {} that its price, duct and pulling come to", name_of(d),
                    static_cast<double>(least));
            }
        }
        return "";
    }

    [[nodiscard]] std::string name_of(std::size_t demand) const {
        return demand < scenario_.buildings.size() ? "building " + scenario_.buildings[demand].id : "the trunk";
    }

    void check_roots() {
        for (const graph::RootOption& root : evidence_.roots) {
            const auto place = std::lower_bound(figures_.places.begin(), figures_.places.end(), root.at);
            const std::string& id = scenario_.places[static_cast<std::size_t>(root.at)].id;
            if (place == figures_.places.end() || *place != root.at) {
                fault(fmt::format("cables cannot fan out from place {}", id));
                continue;
            }
            const Money beside = figures_.beside[static_cast<std::size_t>(place - figures_.places.begin())];
            const Wide units = evidence_.units_a_minor;
            if (evidence_.constant.minor() * units + root.cost <= beside.minor() * units) continue;
            fault(
                fmt::format("the constant of {} and the cost of {} units at place {} are above the {} that plans pay "
                            "beside their routes",
                            evidence_.constant.minor(), root.cost, id, beside.minor()));
        }
    }

    const Scenario& scenario_;
    const FanOutFigures& figures_;
    const RoutesEvidence& evidence_;
    std::vector<std::vector<std::size_t>> edges_of_;  ///< By segment.
    std::vector<std::string> faults_;
};

}  // namespace

std::vector<std::string> figure_faults(const Scenario& scenario, const FanOutFigures& figures,
                                       const RoutesEvidence& evidence) {
    return FigureCheck(scenario, figures, evidence).run();
}

}  // namespace spadework::certificate
