#include "extension/extension.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "extension/candidates.hpp"
#include "extension/chain_change.hpp"
#include "extension/cut_in.hpp"
#include "extension/description.hpp"
#include "extension/extension_bill.hpp"
#include "rates/gear_rates.hpp"
#include "rates/quote_rates.hpp"
#include "routing/distances.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

std::vector<BuildingIndex> buildings_without_links(const Scenario& scenario, const Plan& built) {
    std::set<BuildingIndex> served;
    for (const PlannedLink& link : built.links)
        served.insert(link.building);
    std::vector<BuildingIndex> without;
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        if (!served.contains(static_cast<BuildingIndex>(b))) without.push_back(static_cast<BuildingIndex>(b));
    }
    return without;
}

/// The site with the additions as its only buildings and what is left of the hub's ports.
Scenario site_of_additions(const Scenario& scenario, const std::vector<BuildingIndex>& additions, int free_ports) {
    Scenario site = scenario;
    site.buildings.clear();
    for (const BuildingIndex addition : additions)
        site.buildings.push_back(scenario.buildings[static_cast<std::size_t>(addition)]);
    site.hub.free_optic_ports = free_ports;
    // What stands there already has its copper, and ports kept for growth are for what comes now.
    site.hub.devices.clear();
    site.hub.growth_ports = 0;
    return site;
}

/// Everything that is looked at once for all candidates.
class Extender {
public:
    /// Whether strands and adapters that are lacking are looked at.
    enum class Strands { as_they_are, always_enough };

    Extender(const Scenario& scenario, const BuiltPlan& built, const ExtensionRules& rules,
             Strands strands = Strands::as_they_are)
        : scenario_(scenario),
          built_(built),
          rules_(rules),
          additions_(buildings_without_links(scenario, built.plan)),
          rate_(fastest_of(scenario, additions_)),
          works_(works_for(scenario, built.plan, rate_, strands)),
          alone_(site_of_additions(scenario, additions_, works_.free_hub_ports)),
          search_{scenario, built.plan, works_, additions_, network_beside(scenario, works_), {}} {}

    std::optional<CostOfAdding> cost() {
        const Network whole = network_of(scenario_);
        const ServiceFigures service =
            service_figures(alone_, search_.network.scale, shortest_ways(whole, scenario_.hub.place));
        if (additions_.empty() || !service.impossible.empty()) return std::nullopt;
        search_.figures = service.cables;
        set_task();
        const std::vector<Source> sources = sources_of(search_);
        FreeRoutes free = routed_from_anywhere(search_, sources);
        std::vector<Candidate> candidates = from_sources(search_, sources);
        if (free.fitting) candidates.push_back({*std::move(free.fitting), ""});
        std::optional<CostOfAdding> best;
        for (const Candidate& candidate : candidates) {
            const ExtensionAssembly assembly = assemble(*task_, candidate.routed);
            if (!assembly.extended) continue;
            const Money direct = direct_cost(price_of_extension(scenario_, *assembly.extended));
            if (best && best->direct <= direct) continue;
            best = CostOfAdding{
                direct, !assembly.extended->lit.empty(), {}, candidate.routed.additions.front().route.from};
            for (const Step& step : assembly.extended->opened)
                best->opened += scenario_.segments[static_cast<std::size_t>(step.segment)].length;
        }
        return best;
    }

    Extension run() {
        if (additions_.empty()) {
            result_.feasible = true;
            result_.bound_covers_all = true;
            result_.extended.plan = built_.plan;
            result_.findings = check(scenario_, built_.plan);
            describe_extension(scenario_, built_, built_.strands, {}, result_);
            return std::move(result_);
        }
        const Network whole = network_of(scenario_);
        const ServiceFigures service =
            service_figures(alone_, search_.network.scale, shortest_ways(whole, scenario_.hub.place));
        if (!service.impossible.empty()) return infeasible(service.impossible);
        search_.figures = service.cables;
        consider_all(service.constant);
        if (!result_.feasible) return infeasible(reason_.empty() ? "there is no way to the new buildings" : reason_);
        describe_extension(scenario_, built_, best_->kept, best_->routed, result_);
        return std::move(result_);
    }

private:
    static BuiltWorks works_for(const Scenario& scenario, const Plan& built, BitRate rate, Strands strands) {
        BuiltWorks works = works_of(scenario, built, rate);
        constexpr int plenty = 1000000;
        if (strands == Strands::as_they_are) return works;
        std::fill(works.dark_strands.begin(), works.dark_strands.end(), plenty);
        std::fill(works.free_adapters.begin(), works.free_adapters.end(), plenty);
        return works;
    }

    static BitRate fastest_of(const Scenario& scenario, const std::vector<BuildingIndex>& additions) {
        BitRate fastest;
        for (const BuildingIndex addition : additions) {
            for (const LinkDemand& demand : scenario.buildings[static_cast<std::size_t>(addition)].links)
                fastest = std::max(fastest, demand.rate);
        }
        return fastest;
    }

    Extension infeasible(const std::string& reason) {
        Extension none;
        none.reason = reason;
        none.interrupting = std::move(result_.interrupting);
        return none;
    }

    int new_links() const {
        int links = 0;
        for (const BuildingIndex addition : additions_)
            links += link_count(scenario_.buildings[static_cast<std::size_t>(addition)]);
        return links;
    }

    void set_task() {
        std::vector<HubChoice> hub(1, {std::vector<Pieces>{}, ""});
        for (int links = 1; links <= new_links(); ++links) {
            hub.push_back({cheapest_hub_gear(alone_, links, rate_), ""});
            if (!hub.back().gear) hub.back().why_not = why_no_hub_gear(alone_, links, rate_);
        }
        task_.emplace(ExtensionTask{scenario_, built_.plan, works_, additions_, std::move(hub)});
    }

    void consider_all(Money constant) {
        set_task();
        std::vector<Source> sources = sources_of(search_);
        FreeRoutes free = routed_from_anywhere(search_, sources);
        const std::vector<Source> ends = chain_ends_of(search_);
        const std::vector<Source> dark = dark_cables_of(search_);
        // Where a cable lies there already, less may be paid than what a cable of its own takes at the least.
        result_.bound = dark.empty() ? quote_for(constant + free.bound, scenario_.rules).total() : Money();
        result_.bound_covers_all = !may_add_enclosure(search_) && ends.empty() && dark.empty();
        sources.insert(sources.end(), ends.begin(), ends.end());
        sources.insert(sources.end(), dark.begin(), dark.end());
        if (free.fitting) consider({*std::move(free.fitting), ""});
        for (const Candidate& candidate : from_sources(search_, sources))
            consider(candidate);
        for (const Candidate& candidate : through_new_enclosures(search_, sources))
            consider(candidate);
        std::optional<PricedWay> interrupting = cheapest_cut_in(search_, *task_, built_.strands);
        std::optional<PricedWay> in_chain = cheapest_chain_change(search_, *task_, built_.strands);
        if (in_chain && (!interrupting || in_chain->total < interrupting->total)) interrupting = std::move(in_chain);
        settle(std::move(interrupting));
        name_others();
    }

    void consider(const Candidate& candidate) {
        Pricing pricing = priced(*task_, candidate.routed);
        if (!pricing.way) {
            note_failure(pricing.reason);
            note_other(candidate.what, std::nullopt, pricing.reason);
            return;
        }
        note_other(candidate.what, pricing.way->total, "");
        if (best_ && pricing.way->total >= best_->total) return;
        const std::string error = check_way(scenario_, *pricing.way);
        if (!error.empty()) return note_failure(error);
        pricing.way->kept = built_.strands;
        best_ = std::move(pricing.way);
    }

    void note_failure(const std::string& reason) {
        if (reason_.empty()) reason_ = reason;
    }

    /// The cheapest that touches nothing, or the one that interrupts links where that may be and is cheaper.
    void settle(std::optional<PricedWay> interrupting) {
        const bool cheaper = interrupting && (!best_ || interrupting->total < best_->total);
        if (rules_.may_interrupt && cheaper) {
            if (best_) touching_nothing_ = best_->total;
            best_ = std::move(interrupting);
        } else if (interrupting) {
            result_.interrupting = InterruptingWay{*interrupting->interruption, interrupting->total};
        }
        if (!best_) return;
        result_.feasible = true;
        result_.total = best_->total;
        result_.bill = std::move(best_->bill);
        result_.extended = std::move(best_->extended);
        result_.findings = std::move(best_->findings);
        result_.interruption = std::move(best_->interruption);
    }

    /// The cheapest of each kind that has a name.
    void note_other(const std::string& what, std::optional<Money> total, const std::string& reason) {
        if (what.empty()) return;
        const std::string kind = what.substr(0, what.find(" at "));
        const auto [entry, fresh] = others_.try_emplace(kind, OtherWay{what, total, reason});
        if (fresh || !total) return;
        if (!entry->second.total || *total < *entry->second.total) entry->second = {what, total, reason};
    }

    void name_others() {
        const bool named = std::any_of(others_.begin(), others_.end(), [&](const auto& other) {
            return touching_nothing_ && other.second.total == touching_nothing_;
        });
        if (touching_nothing_ && !named)
            result_.others.push_back({"the cheapest that interrupts no link", touching_nothing_, ""});
        for (auto& [kind, other] : others_) {
            if (!result_.feasible || !other.total || *other.total > result_.total) result_.others.push_back(other);
        }
    }

    const Scenario& scenario_;
    const BuiltPlan& built_;
    const ExtensionRules rules_;
    const std::vector<BuildingIndex> additions_;
    const BitRate rate_;
    const BuiltWorks works_;
    const Scenario alone_;
    ExtensionSearch search_;
    std::optional<ExtensionTask> task_;
    std::optional<PricedWay> best_;
    std::optional<Money> touching_nothing_;  ///< What the cheapest such costs, where another is taken.
    std::string reason_;
    std::map<std::string, OtherWay> others_;
    Extension result_;
};

}  // namespace

Extension extend(const Scenario& scenario, const BuiltPlan& built, const ExtensionRules& rules) {
    return Extender(scenario, built, rules).run();
}

std::optional<CostOfAdding> cost_of_adding(const Scenario& scenario, const Plan& built) {
    const BuiltPlan plan{built, {}};
    return Extender(scenario, plan, {}, Extender::Strands::always_enough).cost();
}

}  // namespace spadework
