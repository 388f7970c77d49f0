#include "extension/extension.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "extension/candidates.hpp"
#include "extension/extension_bill.hpp"
#include "rates/gear_rates.hpp"
#include "rates/opening_rates.hpp"
#include "rates/quote_rates.hpp"
#include "routing/distances.hpp"
#include "strand_map/strand_map_check.hpp"
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

    Extender(const Scenario& scenario, const BuiltPlan& built, Strands strands = Strands::as_they_are)
        : scenario_(scenario),
          built_(built),
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
                best->opened += length_of(step);
        }
        return best;
    }

    Extension run() {
        if (additions_.empty()) {
            result_.feasible = true;
            result_.bound_covers_all = true;
            result_.extended.plan = built_.plan;
            describe();
            return std::move(result_);
        }
        const Network whole = network_of(scenario_);
        const ServiceFigures service =
            service_figures(alone_, search_.network.scale, shortest_ways(whole, scenario_.hub.place));
        if (!service.impossible.empty()) return infeasible(service.impossible);
        search_.figures = service.cables;
        consider_all(service.constant);
        if (!result_.feasible) return infeasible(reason_.empty() ? "there is no way to the new buildings" : reason_);
        describe();
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
        result_ = {};
        result_.reason = reason;
        return std::move(result_);
    }

    int new_links() const {
        int links = 0;
        for (const BuildingIndex addition : additions_)
            links += link_count(scenario_.buildings[static_cast<std::size_t>(addition)]);
        return links;
    }

    void set_task() {
        task_.emplace(ExtensionTask{scenario_, built_.plan, works_, additions_,
                                    cheapest_hub_gear(alone_, new_links(), rate_),
                                    why_no_hub_gear(alone_, new_links(), rate_)});
    }

    void consider_all(Money constant) {
        set_task();
        const std::vector<Source> sources = sources_of(search_);
        FreeRoutes free = routed_from_anywhere(search_, sources);
        result_.bound = quote_for(constant + free.bound, scenario_.rules).total();
        result_.bound_covers_all = !may_add_enclosure(search_);
        if (free.fitting) consider({*std::move(free.fitting), ""});
        for (const Candidate& candidate : from_sources(search_, sources))
            consider(candidate);
        for (const Candidate& candidate : through_new_enclosures(search_, sources))
            consider(candidate);
        name_others();
        result_.cut_in = cheapest_cut_in(search_, *task_);
    }

    void consider(const Candidate& candidate) {
        ExtensionAssembly assembly = assemble(*task_, candidate.routed);
        if (!assembly.extended) {
            if (reason_.empty()) reason_ = assembly.reason;
            note_other(candidate.what, std::nullopt, assembly.reason);
            return;
        }
        Bill bill = price_of_extension(scenario_, *assembly.extended);
        const Money total = bill.total();
        note_other(candidate.what, total, "");
        if (result_.feasible && total >= result_.total) return;
        const Findings findings = check(scenario_, assembly.extended->plan);
        if (has_errors(findings)) {
            if (reason_.empty()) reason_ = findings.front().what;
            return;
        }
        result_.feasible = true;
        result_.total = total;
        result_.bill = std::move(bill);
        result_.extended = *std::move(assembly.extended);
        result_.findings = findings;
        routed_ = candidate.routed;
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
        for (auto& [kind, other] : others_) {
            if (!result_.feasible || !other.total || *other.total > result_.total) result_.others.push_back(other);
        }
    }

    void describe() {
        describe_additions();
        measure_ways();
        for (const int c : result_.extended.cables)
            result_.cable_ordered += cable_at(c).lengths.ordered;
        for (const LitStrands& lit : result_.extended.lit)
            result_.strands_taken += lit.strands;
        const Plan& plan = result_.extended.plan;
        result_.strand_map = map_strands(scenario_, plan, tia_598_order(), built_.strands);
        result_.link_budgets = link_budgets(scenario_, plan);
        if (additions_.empty()) result_.findings = check(scenario_, plan);
        result_.violations = strand_map_violations(scenario_, plan, result_.strand_map);
        compare_with_built();
    }

    const PlannedCable& cable_at(int index) const {
        return result_.extended.plan.cables[static_cast<std::size_t>(index)];
    }

    Length length_of(const Step& step) const {
        return scenario_.segments[static_cast<std::size_t>(step.segment)].length;
    }

    void describe_additions() {
        std::map<Step, int> uses;
        for (const RoutedAddition& addition : routed_.additions) {
            for (const Step& step : addition.route.steps)
                ++uses[step];
        }
        for (const RoutedAddition& routed : routed_.additions) {
            Addition addition{routed.building, routed.source, routed.route.from, {}, {}};
            for (const Step& step : routed.route.steps) {
                addition.route += length_of(step);
                if (uses[step] > 1) addition.shared += length_of(step);
            }
            result_.additions.push_back(addition);
        }
    }

    void measure_ways() {
        std::set<Step> used;
        for (const int c : result_.extended.cables)
            used.insert(cable_at(c).steps.begin(), cable_at(c).steps.end());
        for (const Step& step : used) {
            const Way way = ways_of(scenario_, step.segment)[static_cast<std::size_t>(step.way)];
            const bool dug = way.method->kind != MethodKind::existing_duct && way.method->kind != MethodKind::pole_line;
            if (!dug) {
                result_.reused += length_of(step);
            } else if (dug_before(step.segment)) {
                result_.opened_again += length_of(step);
            } else {
                result_.new_trench += length_of(step);
            }
        }
    }

    bool dug_before(SegmentIndex segment) const {
        return std::any_of(built_.plan.trenches.begin(), built_.plan.trenches.end(), [&](const Step& step) {
            return step.segment == segment && !is_open(scenario_, works_, step);
        });
    }

    void compare_with_built() {
        const std::vector<KeptStrand>& before = built_.before.empty() ? built_.strands : built_.before;
        const auto after = kept_strands(scenario_, result_.extended.plan, result_.strand_map);
        std::set<std::string> present;
        for (const Building& building : scenario_.buildings)
            present.insert(building.id);
        std::set<std::string> gone;
        for (const KeptStrand& strand : before) {
            if (!strand.building.empty() && !present.contains(strand.building)) gone.insert(strand.building);
        }
        result_.untouched = compare_strands(before, after, {gone.begin(), gone.end()});
        for (const TouchedLink& link : result_.untouched.touched)
            result_.violations.push_back("Link " + std::to_string(link.link) + " to " + link.building +
                                         " is touched: " + link.how + ".");
    }

    const Scenario& scenario_;
    const BuiltPlan& built_;
    const std::vector<BuildingIndex> additions_;
    const BitRate rate_;
    const BuiltWorks works_;
    const Scenario alone_;
    ExtensionSearch search_;
    std::optional<ExtensionTask> task_;
    RoutedExtension routed_;
    std::string reason_;
    std::map<std::string, OtherWay> others_;
    Extension result_;
};

}  // namespace

Extension extend(const Scenario& scenario, const BuiltPlan& built) {
    return Extender(scenario, built).run();
}

std::optional<CostOfAdding> cost_of_adding(const Scenario& scenario, const Plan& built) {
    const BuiltPlan plan{built, {}};
    return Extender(scenario, plan, Extender::Strands::always_enough).cost();
}

}  // namespace spadework
