#include <algorithm>
#include <numeric>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "certificate/edge_check.hpp"
#include "certificate/trunk_check.hpp"
#include "certificate/trunk_figures.hpp"
#include "strands/strand_need.hpp"

namespace spadework::certificate {

namespace {

class TrunkFigureCheck {
public:
    TrunkFigureCheck(const Scenario& scenario, const TrunkEvidence& evidence, bool mixed)
        : scenario_(scenario), evidence_(evidence), mixed_(mixed), units_(evidence.units_a_minor) {}

    std::vector<std::string> run() {
        const auto served = served_figures(scenario_);
        const auto all = trunk_figures(scenario_, std::max(1, all_strands(scenario_)));
        if (!served || evidence_.demands.size() != scenario_.buildings.size()) {
            return {"there is not one demand for each building that can be served"};
        }
        const Money rounding = all ? Money::from_minor(all->cable.rounding) * scenario_.rules.most_enclosures : Money();
        Money beside = served->cost - rounding;
        for (const Building& building : scenario_.buildings)
            beside += trunk_end_work(scenario_, building);
        if (evidence_.constant > beside) {
            fault(fmt::format("the constant of {} is above the {} that plans pay beside their routes",
                              evidence_.constant.minor(), beside.minor()));
        }
        for (std::size_t b = 0; b < scenario_.buildings.size(); ++b)
            check_demand(b, served->cables[b]);
        check_proportion();
        check_sites(*served);
        check_sizes(*served);
        if (!faults_.empty()) return faults_;
        return edge_faults(scenario_, evidence_.edges, units_, cables_, Coils::not_charged);
    }

private:
    void fault(const std::string& sentence) {
        if (faults_.size() < most_faults) faults_.push_back(sentence);
    }

    void check_demand(std::size_t b, const LeastCable& cable) {
        const graph::TwoLevelDemand& demand = evidence_.demands[b];
        const std::string& id = scenario_.buildings[b].id;
        cables_.push_back({"the cable of building " + id, demand.weight, demand.multiplicity, cable});
        if (demand.direct.has_value() != mixed_) {
            fault(fmt::format("building {} {} be on a home run", id, mixed_ ? "may" : "may not"));
        } else if (demand.direct) {
            const Money saved = trunk_end_work(scenario_, scenario_.buildings[b]);
            if (demand.direct->fixed <= -saved.minor() * static_cast<Wide>(units_)) return;
            fault(
                fmt::format("a home run to building {} may save {}, which is more than is counted", id, saved.minor()));
        }
    }

    /// All demands must rank all ways alike.
    void check_proportion() {
        const auto no_passage = [](const CertifiedEdge& edge) { return edge.passage == 0; };
        const auto no_length = [](const CertifiedEdge& edge) { return edge.length == 0; };
        if (std::all_of(evidence_.edges.begin(), evidence_.edges.end(), no_passage) ||
            std::all_of(evidence_.edges.begin(), evidence_.edges.end(), no_length)) {
            return;
        }
        std::set<std::pair<graph::Cost, graph::Cost>> proportions;
        for (const graph::TwoLevelDemand& demand : evidence_.demands) {
            const graph::Cost divisor = std::gcd(demand.weight, demand.multiplicity);
            if (divisor > 0) proportions.emplace(demand.weight / divisor, demand.multiplicity / divisor);
        }
        if (proportions.size() > 1) fault("the demands do not rank all ways alike, which the proof expects");
    }

    void check_sites(const ServedFigures& served) {
        std::set<PlaceIndex> named;
        for (const graph::Site& site : evidence_.sites) {
            const Place& place = scenario_.places[static_cast<std::size_t>(site.at)];
            const bool right = named.insert(site.at).second && site.feeder_extra.size() == evidence_.sizes.size();
            if (!right)
                fault(fmt::format("place {} is not named once, with what each size costs more there", place.id));
            if (site.cost > place.enclosure_extra.minor() * static_cast<Wide>(units_)) {
                fault(fmt::format("an enclosure at place {} costs {} more, not {} units", place.id,
                                  place.enclosure_extra.minor(), site.cost));
            }
        }
        for (std::size_t p = 0; p < scenario_.places.size(); ++p) {
            const bool may = scenario_.places[p].enclosure_allowed && served.from_hub[p];
            if (may == named.contains(static_cast<PlaceIndex>(p))) continue;
            fault(fmt::format("an enclosure {} stand at place {}", may ? "may" : "may not", scenario_.places[p].id));
        }
    }

    /// For every number of strands in use, the first size that holds them charges no more than such a trunk costs.
    void check_sizes(const ServedFigures& served) {
        const int most = all_strands(scenario_);
        std::size_t s = 0;
        std::int64_t before = 0;
        for (const graph::FeederSize& size : evidence_.sizes) {
            if (size.units <= before) return fault("the sizes of trunks do not ascend");
            before = size.units;
        }
        for (int in_use = 1; in_use <= most && faults_.size() < most_faults; ++in_use) {
            while (s < evidence_.sizes.size() && evidence_.sizes[s].units < in_use)
                ++s;
            const auto least = trunk_figures(scenario_, in_use);
            if (!least) continue;
            if (s == evidence_.sizes.size()) {
                return fault(fmt::format("no size stands for a trunk with {} strands in use", in_use));
            }
            check_size(s, in_use, *least, served);
        }
    }

    void check_size(std::size_t s, int in_use, const TrunkFigures& least, const ServedFigures& served) {
        const graph::FeederSize& size = evidence_.sizes[s];
        const std::string name = fmt::format("a trunk with {} strands in use", in_use);
        if (size.fixed > least.fixed.minor() * static_cast<Wide>(units_)) {
            fault(fmt::format("{} costs {} at its ends, not {} units", name, least.fixed.minor(), size.fixed));
        }
        const bool known = !cables_.empty() && cables_.back().weight == size.weight &&
                           cables_.back().multiplicity == size.multiplicity &&
                           cables_.back().least.thousandths_a_metre == least.cable.thousandths_a_metre &&
                           cables_.back().least.pieces == least.cable.pieces;
        if (!known) cables_.push_back({name, size.weight, size.multiplicity, least.cable});
        for (const graph::Site& site : evidence_.sites) {
            const auto& route = served.from_hub[static_cast<std::size_t>(site.at)];
            if (!route || site.feeder_extra.size() != evidence_.sizes.size()) continue;
            const Wide beyond = beyond_least(scenario_, least.cable, *route);
            if (site.feeder_extra[s] <= beyond * units_) continue;
            fault(fmt::format("{} to place {} is charged {} units more than the {} that its length makes dearer", name,
                              scenario_.places[static_cast<std::size_t>(site.at)].id, site.feeder_extra[s],
                              static_cast<std::int64_t>(beyond)));
        }
    }

    const Scenario& scenario_;
    const TrunkEvidence& evidence_;
    bool mixed_;
    std::int64_t units_;
    std::vector<CableCharge> cables_;
    std::vector<std::string> faults_;
};

}  // namespace

std::vector<std::string> trunk_figure_faults(const Scenario& scenario, const TrunkEvidence& evidence, bool mixed) {
    return TrunkFigureCheck(scenario, evidence, mixed).run();
}

}  // namespace spadework::certificate
