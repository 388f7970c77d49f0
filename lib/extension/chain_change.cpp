#include "extension/chain_change.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

#include "extension/candidates.hpp"
#include "extension/ways_apart.hpp"
#include "failures/flood.hpp"
#include "rates/cable_rates.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

/// A new building before one that stands.
struct Insertion {
    Source before;             ///< What the new building hangs on: the hub, or a building of the chain.
    BuildingIndex behind = 0;  ///< Hangs on the new building from then on.
    std::size_t chain = 0;
    std::size_t position = 0;
};

std::vector<Insertion> insertions_of(const ExtensionSearch& search) {
    std::vector<Insertion> all;
    for (std::size_t c = 0; c < search.built.chains.size(); ++c) {
        const std::vector<BuildingIndex>& chain = search.built.chains[c];
        if (static_cast<int>(chain.size()) >= search.scenario.rules.hop_limit) continue;
        for (std::size_t at = 0; at < chain.size(); ++at) {
            const Source before = at == 0 ? Source{} : Source{Source::Kind::building, -1, chain[at - 1]};
            all.push_back({before, chain[at], c, at});
        }
    }
    return all;
}

class ChainSearch {
public:
    ChainSearch(const ExtensionSearch& search, const ExtensionTask& task, const std::vector<KeptStrand>& strands)
        : search_(search), task_(task), strands_(strands) {
        task_.may_swap_gear = true;
    }

    std::optional<PricedWay> run() {
        if (search_.built.chains.empty()) return std::nullopt;
        try_larger_gear();
        if (search_.additions.size() == 1) {
            for (const Insertion& insertion : insertions_of(search_))
                try_insertion(insertion);
        }
        return std::move(best_);
    }

private:
    const std::string& id_of(BuildingIndex building) const {
        return search_.scenario.buildings[static_cast<std::size_t>(building)].id;
    }

    void try_larger_gear() {
        std::vector<Source> sources = sources_of(search_);
        const std::vector<Source> ends = chain_ends_of(search_);
        if (ends.empty()) return;
        sources.insert(sources.end(), ends.begin(), ends.end());
        const std::vector<Source> dark = dark_cables_of(search_);
        sources.insert(sources.end(), dark.begin(), dark.end());
        for (const Candidate& candidate : from_sources(search_, sources)) {
            Pricing pricing = priced(task_, candidate.routed);
            if (!pricing.way || pricing.way->extended.swapped.empty()) continue;
            keep_cheaper(*std::move(pricing.way), nullptr);
        }
    }

    void try_insertion(const Insertion& insertion) {
        const auto figures = figures_of_hop(insertion.behind);
        if (!figures) return;
        // The two cables, to the new building and from there on, as if both ends were additions.
        const BuildingIndex added = search_.additions.front();
        const std::vector<BuildingIndex> both = {added, insertion.behind};
        const ExtensionSearch pair{search_.scenario, search_.built,       search_.works, both,
                                   search_.network,  {*figures, *figures}};
        const std::vector<Source> sources = {insertion.before, {Source::Kind::building, -1, added}};
        const std::set<SegmentIndex> others = passed_by_other_hops(insertion);
        for (const std::vector<std::size_t>& order : {std::vector<std::size_t>{0, 1}, std::vector<std::size_t>{1, 0}}) {
            offer(insertion, routed_from(pair, sources, order));
            if (search_.built.layout == LayoutKind::ring) offer(insertion, routed_apart(pair, sources, order, others));
        }
    }

    void offer(const Insertion& insertion, const std::optional<RoutedExtension>& routed) {
        if (!routed) return;
        const BuildingIndex added = search_.additions.front();
        RoutedExtension inserted;
        inserted.additions = {routed->additions.front()};
        inserted.reconnection = Reconnection{insertion.behind, added, routed->additions.back().route};
        Pricing pricing = priced(task_, inserted);
        if (!pricing.way || !carries(insertion.behind, added) || !cuts_take_no_more(*pricing.way)) return;
        keep_cheaper(*std::move(pricing.way), &insertion);
    }

    /// Segments that the hops of a ring pass, that which gives way to the new building left out.
    std::set<SegmentIndex> passed_by_other_hops(const Insertion& insertion) const {
        const std::vector<BuildingIndex>& chain = search_.built.chains[insertion.chain];
        std::set<SegmentIndex> passed;
        for (const PlannedCable& cable : search_.built.cables) {
            const bool hop = cable.role == CableRole::hop && cable.building != insertion.behind;
            if (!hop && cable.role != CableRole::closing) continue;
            if (std::find(chain.begin(), chain.end(), cable.building) == chain.end()) continue;
            for (const Step& step : cable.steps)
                passed.insert(step.segment);
        }
        return passed;
    }

    /// Links that come over the hop to a building.
    std::vector<PlannedLink> links_over_hop(BuildingIndex building) const {
        std::vector<PlannedLink> links;
        for (const PlannedLink& link : search_.built.links) {
            const bool hop = !link.cables.empty() &&
                             search_.built.cables[static_cast<std::size_t>(link.cables.front())].role == CableRole::hop;
            if (link.building == building && hop) links.push_back(link);
        }
        return links;
    }

    std::optional<CableFigures> figures_of_hop(BuildingIndex building) const {
        const auto links = static_cast<int>(links_over_hop(building).size());
        if (links == 0) return std::nullopt;
        const StrandNeed need =
            drop_need(links * strands_per_link(search_.scenario.rules.strand_use), search_.scenario.rules);
        return cable_figures(search_.scenario, search_.network.scale, need);
    }

    /// Whether the hop's links are as many and as fast as the new building asks for.
    bool carries(BuildingIndex behind, BuildingIndex added) const {
        BitRate rate;
        int count = 0;
        for (const PlannedLink& link : links_over_hop(behind)) {
            rate = std::max(rate, link.rate);
            ++count;
        }
        const Building& building = search_.scenario.buildings[static_cast<std::size_t>(added)];
        return link_count(building) <= count &&
               std::all_of(building.links.begin(), building.links.end(),
                           [&](const LinkDemand& demand) { return demand.rate <= rate; });
    }

    /// Whether no cut of a segment takes a building of a ring down that it did not take down before.
    bool cuts_take_no_more(const PricedWay& way) const {
        if (search_.built.layout != LayoutKind::ring) return true;
        const Flood before(search_.scenario, search_.built);
        const Flood after(search_.scenario, way.extended.plan);
        for (const Step& step : way.extended.plan.trenches) {
            std::vector<BuildingIndex> lost = before.lost(before.links_in(step.segment), -1);
            lost.push_back(search_.additions.front());
            for (const BuildingIndex building : after.lost(after.links_in(step.segment), -1)) {
                if (std::find(lost.begin(), lost.end(), building) == lost.end()) return false;
            }
        }
        return true;
    }

    void keep_cheaper(PricedWay way, const Insertion* insertion) {
        if (best_ && best_->total <= way.total) return;
        if (!check_way(search_.scenario, way).empty()) return;
        way.kept = strands_;
        way.interruption = insertion == nullptr ? down_for_gear(way) : down_for_insertion(way, *insertion);
        best_ = std::move(way);
    }

    Interruption down_for_gear(const PricedWay& way) const {
        Interruption down;
        down.links = links_by_name(search_.built, way.extended);
        down.what = "larger gear in building";
        for (const int g : way.extended.swapped) {
            const PlannedGear& gear = way.extended.plan.building_gear[static_cast<std::size_t>(g)];
            const auto& product =
                search_.scenario.catalogue.building_gear[static_cast<std::size_t>(gear.pieces.product)];
            down.what += (g == way.extended.swapped.front() ? " " : ", ") + id_of(gear.building);
            down.outage += product.install_time * gear.pieces.count;
        }
        down.outage += test_work(strands_of(way), search_.scenario.labour).time;
        return down;
    }

    Interruption down_for_insertion(const PricedWay& way, const Insertion& insertion) const {
        Interruption down;
        down.links = links_by_name(search_.built, way.extended);
        const bool ring = search_.built.layout == LayoutKind::ring;
        down.what =
            "a place in the " + std::string(ring ? "ring" : "chain") + " before building " + id_of(insertion.behind);
        down.made_anew = true;
        const std::vector<BuildingIndex>& chain = search_.built.chains[insertion.chain];
        for (std::size_t at = insertion.position; at < chain.size() && !ring; ++at)
            down.cut_off.push_back(chain[at]);
        const int strands = strands_of(way);
        down.outage =
            search_.scenario.labour.plug_time * (2 * strands) + test_work(strands, search_.scenario.labour).time;
        return down;
    }

    static int strands_of(const PricedWay& way) {
        int strands = 0;
        for (const int l : way.extended.interrupted)
            strands += way.extended.plan.links[static_cast<std::size_t>(l)].strands;
        return strands;
    }

    const ExtensionSearch& search_;
    ExtensionTask task_;
    const std::vector<KeptStrand>& strands_;
    std::optional<PricedWay> best_;
};

}  // namespace

std::optional<PricedWay> cheapest_chain_change(const ExtensionSearch& search, const ExtensionTask& task,
                                               const std::vector<KeptStrand>& strands) {
    return ChainSearch(search, task, strands).run();
}

}  // namespace spadework
