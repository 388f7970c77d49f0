#include "extension/assembling.hpp"

#include <algorithm>
#include <set>

#include "extension/chain_ends.hpp"
#include "extension/laying.hpp"
#include "extension/lit_trunks.hpp"
#include "extension/plan_order.hpp"
#include "layout/cut_trunk.hpp"
#include "layout/link_choice.hpp"
#include "rates/cable_rates.hpp"
#include "rates/gear_rates.hpp"
#include "rates/opening_rates.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

class Assembler {
public:
    Assembler(const ExtensionTask& task, const RoutedExtension& routed)
        : task_(task), scenario_(task.scenario), routed_(routed), trunks_(task.scenario, task.works.dark_strands) {
        extended_.plan = task.built;
        built_enclosures_ = static_cast<int>(task.built.enclosures.size());
        if (task.cut == nullptr) return;
        extended_.cut = task.cut->near;
        extended_.interrupted = task.cut->links;
    }

    ExtensionAssembly run() {
        check_room();
        for (std::size_t e = 0; e < routed_.enclosures.size(); ++e)
            add_enclosure(static_cast<int>(e));
        for (const RoutedAddition& addition : routed_.additions)
            add_building(addition);
        extended_.lit = trunks_.lit();
        extended_.lit.insert(extended_.lit.end(), relit_.begin(), relit_.end());
        hang_on_chains();
        refit_enclosures();
        fit_hub();
        open_ways();
        name_layout();
        if (!reason_.empty()) return {std::nullopt, reason_};
        put_in_order(extended_);
        return {std::move(extended_), ""};
    }

private:
    void fail(const std::string& reason) {
        if (reason_.empty()) reason_ = reason;
    }
    Plan& plan() { return extended_.plan; }
    const Building& building(BuildingIndex index) const { return scenario_.buildings[static_cast<std::size_t>(index)]; }
    const std::string& place_id(PlaceIndex at) const { return scenario_.places[static_cast<std::size_t>(at)].id; }
    /// Ducts must not be filled beyond their room by the new cables.
    void check_room() {
        std::map<Step, int> cables = task_.works.cables;
        const auto pass = [&](const Route& route) {
            for (const Step& step : route.steps) {
                const Way way = ways_of(scenario_, step.segment)[static_cast<std::size_t>(step.way)];
                if (++cables[step] > way.room && way.room >= 0)
                    fail("the existing duct in segment " +
                         scenario_.segments[static_cast<std::size_t>(step.segment)].id + " is full");
            }
        };
        for (const RoutedEnclosure& enclosure : routed_.enclosures)
            pass(enclosure.trunk);
        for (const RoutedAddition& addition : routed_.additions) {
            if (addition.source.cable < 0) pass(addition.route);
        }
    }

    /// Lays a route; for each of its links the cable that it runs in.
    std::vector<int> lay(const Route& route, const Load& load, PlannedCable model) {
        const std::string id = model.id;
        const auto laid = lay_cables(scenario_, extended_, route, load, std::move(model));
        if (laid) return *laid;
        fail("the catalogue has no cable that holds the " + std::to_string(load.need.total()) + " strands of " + id);
        return std::vector<int>(static_cast<std::size_t>(load.links), -1);
    }

    void add_enclosure(int number) {
        const RoutedEnclosure& routed = routed_.enclosures[static_cast<std::size_t>(number)];
        int links = 0;
        for (const RoutedAddition& addition : routed_.additions) {
            if (addition.source == Source{Source::Kind::new_enclosure, number})
                links += link_count(building(addition.building));
        }
        PlannedEnclosure planned;
        planned.place = routed.place;
        const int in_use = links * strands_per_link(scenario_.rules.strand_use);
        planned.need = trunk_need(in_use, scenario_.rules, scenario_.growth);
        const auto products = cheapest_enclosures(scenario_, planned.need.total());
        if (!products) return fail("the catalogue has no enclosure for the strands at " + place_id(routed.place));
        planned.products = *products;
        PlannedCable model;
        model.id = "trunk-" + place_id(routed.place);
        model.role = CableRole::trunk;
        model.enclosure = built_enclosures_ + number;
        const auto first = static_cast<int>(plan().cables.size());
        trunk_of_link_.push_back(lay(routed.trunk, {links, planned.need}, model));
        for (int c = first; c < static_cast<int>(plan().cables.size()); ++c)
            planned.trunks.push_back(c);
        extended_.enclosures.push_back(static_cast<int>(plan().enclosures.size()));
        plan().enclosures.push_back(std::move(planned));
    }

    int light_trunk(const Source& source, int strands) {
        const int enclosure = source.enclosure;
        const auto lit = trunks_.light_one(plan(), enclosure, strands, source.cable >= 0);
        if (lit) return *lit;
        fail("the trunk to " + place_id(plan().enclosures[static_cast<std::size_t>(enclosure)].place) +
             " has not enough dark strands left");
        return -1;
    }

    /// The trunk that the next link through the source runs in; -1 from the hub or where there is none.
    int trunk_for_link(const Source& source, int strands) {
        if (source.kind == Source::Kind::hub || source.kind == Source::Kind::building) return -1;
        if (source.kind == Source::Kind::built_enclosure) return light_trunk(source, strands);
        const auto number = static_cast<std::size_t>(source.enclosure);
        if (next_on_trunk_.size() <= number) next_on_trunk_.resize(number + 1, 0);
        const auto link = static_cast<std::size_t>(next_on_trunk_[number]++);
        return link < trunk_of_link_[number].size() ? trunk_of_link_[number][link] : -1;
    }

    std::vector<int> way_in_trunks(const Source& source, int strands) {
        const int trunk = trunk_for_link(source, strands);
        return trunk < 0 ? std::vector<int>{} : parts_of_trunk(plan(), trunk);
    }

    void add_building(const RoutedAddition& addition) {
        if (!reason_.empty()) return;
        const Building& added = building(addition.building);
        const std::vector<LinkDemand> demands = demands_of(addition);
        int number = 0;
        for (const LinkDemand& demand : demands)
            number += demand.count;
        const int strands = strands_per_link(scenario_.rules.strand_use);
        const std::vector<int> own = cables_of(addition, number, strands);
        number = 0;
        for (const LinkDemand& demand : demands) {
            for (int i = 0; i < demand.count; ++i, ++number) {
                PlannedLink link;
                link.building = addition.building;
                link.number = number + 1;
                link.rate = demand.rate;
                link.strands = strands;
                if (addition.source.kind == Source::Kind::building) link.from = addition.source.building;
                link.cables = way_in_trunks(addition.source, strands);
                link.cables.push_back(own[static_cast<std::size_t>(number)]);
                light(std::move(link));
            }
        }
        if (addition.source.kind != Source::Kind::building) plan().hub_ports += number;
        place_gear(addition, added);
    }

    /// For each of an addition's links the cable that it runs in from where the addition is served: a new one, or the
    /// one that lies there dark.
    std::vector<int> cables_of(const RoutedAddition& addition, int links, int strands) {
        const StrandNeed need = drop_need(links * strands, scenario_.rules);
        if (addition.source.cable < 0) return lay(addition.route, {links, need}, model_of(addition));
        PlannedCable& cable = plan().cables[static_cast<std::size_t>(addition.source.cable)];
        const int spare_beyond = std::max(0, cable.need.spare - drop_need(0, scenario_.rules).spare);
        relit_.push_back({addition.source.cable, need.in_use, std::min(need.in_use, spare_beyond)});
        const int of_product = scenario_.catalogue.cables[static_cast<std::size_t>(cable.product)].strands;
        cable.need = {need.in_use, std::clamp(of_product - need.in_use, 0, need.spare), 0};
        cable.building = addition.building;
        if (cable.role == CableRole::drop && cable.enclosure)
            plan().enclosures[static_cast<std::size_t>(*cable.enclosure)].serves.push_back(addition.building);
        return std::vector<int>(static_cast<std::size_t>(links), addition.source.cable);
    }

    PlannedCable model_of(const RoutedAddition& addition) {
        PlannedCable model;
        model.building = addition.building;
        const std::string& id = building(addition.building).id;
        const Source& source = addition.source;
        if (source.kind == Source::Kind::building || is_in_a_chain(addition)) {
            model.role = CableRole::hop;
            model.id = "hop-" + id;
        } else if (source.kind == Source::Kind::hub) {
            model.id = "run-" + id;
        } else {
            model.id = "drop-" + id;
            model.role = CableRole::drop;
            model.enclosure = source.enclosure + (source.kind == Source::Kind::built_enclosure ? 0 : built_enclosures_);
            plan().enclosures[static_cast<std::size_t>(*model.enclosure)].serves.push_back(addition.building);
        }
        return model;
    }

    /// From the hub, with a building of a chain behind it.
    bool is_in_a_chain(const RoutedAddition& addition) const {
        return routed_.reconnection && routed_.reconnection->behind == addition.building;
    }

    /// Links of an addition: those that it asks for, or as many and as fast as those it takes the place of in a chain.
    std::vector<LinkDemand> demands_of(const RoutedAddition& addition) const {
        if (!is_in_a_chain(addition)) return building(addition.building).links;
        LinkDemand hop{BitRate(), 0};
        for (const PlannedLink& link : task_.built.links) {
            if (!is_replaced(link)) continue;
            hop.rate = std::max(hop.rate, link.rate);
            ++hop.count;
        }
        return {hop};
    }

    /// Whether a link of the built plan comes over the hop that the reconnection replaces.
    bool is_replaced(const PlannedLink& link) const {
        return link.building == routed_.reconnection->building && !link.cables.empty() &&
               task_.built.cables[static_cast<std::size_t>(link.cables.front())].role == CableRole::hop;
    }

    void light(PlannedLink link) {
        if (!reason_.empty()) return;
        const GlassPath path = path_through(scenario_, plan(), link.cables);
        link.glass = path.glass;
        link.mated_pairs = path.mated_pairs;
        link.splices = path.splices;
        const auto lit = cheapest_lighting(scenario_, link.rate, path);
        if (!lit)
            return fail("building " + building(link.building).id + ": " + why_no_optic(scenario_, link.rate, path));
        link.optic = lit->optic;
        link.attenuator_at_start = lit->attenuator_at_start;
        link.attenuator_at_end = lit->attenuator_at_end;
        extended_.links.push_back(static_cast<int>(plan().links.size()));
        plan().links.push_back(std::move(link));
    }

    void place_gear(const RoutedAddition& addition, const Building& added) {
        const GearNeed need = gear_need(addition.building, routed_, extended_.plan, demands());
        const auto gear = cheapest_building_gear(scenario_, added, need);
        if (!gear) return fail(why_no_gear(added, need));
        extended_.gear.push_back(static_cast<int>(plan().building_gear.size()));
        plan().building_gear.push_back({addition.building, *gear});
    }

    LinksOf demands() const {
        return [this](const RoutedAddition& addition) { return demands_of(addition); };
    }

    void hang_on_chains() {
        if (reason_.empty() && routed_.reconnection) reconnect(*routed_.reconnection);
        if (reason_.empty()) fail(hang_on_chains_of(task_, routed_, extended_));
    }

    /// Lays the cable from an addition to the building that hangs on it now; the one it had stays where it is, dark.
    void reconnect(const Reconnection& reconnection) {
        std::vector<int> links;
        for (std::size_t l = 0; l < task_.built.links.size(); ++l) {
            if (is_replaced(task_.built.links[l])) links.push_back(static_cast<int>(l));
        }
        const int count = static_cast<int>(links.size());
        const int strands = strands_per_link(scenario_.rules.strand_use);
        PlannedCable model;
        model.id = "hop-" + building(reconnection.building).id;
        model.role = CableRole::hop;
        model.building = reconnection.building;
        for (const int l : links) {
            for (const int c : plan().links[static_cast<std::size_t>(l)].cables)
                retire(plan().cables[static_cast<std::size_t>(c)], strands);
        }
        const auto cables =
            lay(reconnection.route, {count, drop_need(count * strands, scenario_.rules)}, std::move(model));
        if (!reason_.empty()) return;
        for (int i = 0; i < count; ++i) {
            PlannedLink& link = plan().links[static_cast<std::size_t>(links[static_cast<std::size_t>(i)])];
            if (!link.from) --plan().hub_ports;
            link.from = reconnection.behind;
            link.cables = {cables[static_cast<std::size_t>(i)]};
            const GlassPath path = path_through(scenario_, plan(), link.cables);
            link.glass = path.glass;
            link.splices = path.splices;
        }
        extended_.interrupted = links;
        for (std::vector<BuildingIndex>& chain : plan().chains) {
            const auto at = std::find(chain.begin(), chain.end(), reconnection.building);
            if (at != chain.end()) chain.insert(at, reconnection.behind);
        }
    }

    static void retire(PlannedCable& cable, int strands) {
        cable.need.in_use -= strands;
        cable.need.spare += strands;
        cable.building.reset();
    }

    static StrandNeed ending_at(const Plan& plan, int enclosure) {
        StrandNeed sum;
        for (const int c : plan.enclosures[static_cast<std::size_t>(enclosure)].trunks) {
            const StrandNeed need = strands_ending(plan, c);
            sum = {sum.in_use + need.in_use, sum.spare + need.spare, sum.headroom + need.headroom};
        }
        return sum;
    }

    /// Built enclosures where other strands end now get boxes for what they lack.
    void refit_enclosures() {
        for (int e = 0; e < built_enclosures_ && reason_.empty(); ++e) {
            PlannedEnclosure& enclosure = plan().enclosures[static_cast<std::size_t>(e)];
            std::sort(enclosure.serves.begin(), enclosure.serves.end());
            const StrandNeed now = ending_at(plan(), e);
            const StrandNeed before = ending_at(task_.built, e);
            if (now.in_use == before.in_use && now.total() == before.total()) continue;
            const int lacking =
                now.total() - enclosure.need.total() - task_.works.free_adapters[static_cast<std::size_t>(e)];
            enclosure.need = now;
            if (lacking > 0) add_boxes(e, lacking);
        }
    }

    void add_boxes(int e, int adapters) {
        PlannedEnclosure& enclosure = plan().enclosures[static_cast<std::size_t>(e)];
        const auto more = cheapest_enclosures(scenario_, adapters);
        if (!more) return fail("the catalogue has no enclosure for more adapters at " + place_id(enclosure.place));
        // Behind those that are there, so that adapters keep their numbers.
        enclosure.products.insert(enclosure.products.end(), more->begin(), more->end());
        if (task_.cut != nullptr && task_.cut->enclosure == e) {
            extended_.enclosures.push_back(e);
        } else {
            extended_.boxes.push_back({e, *more});
        }
    }

    void fit_hub() {
        const auto more = static_cast<std::size_t>(std::max(0, plan().hub_ports - task_.built.hub_ports));
        if (more >= task_.hub.size()) return;
        const HubChoice& choice = task_.hub[more];
        if (!choice.gear) return fail(choice.why_not);
        extended_.hub_gear = *choice.gear;
        plan().hub_gear.insert(plan().hub_gear.end(), choice.gear->begin(), choice.gear->end());
    }

    void open_ways() {
        std::set<Step> all(plan().trenches.begin(), plan().trenches.end());
        std::set<Step> opened;
        for (const int c : extended_.cables) {
            for (const Step& step : plan().cables[static_cast<std::size_t>(c)].steps) {
                if (!is_open(scenario_, task_.works, step)) opened.insert(step);
                all.insert(step);
            }
        }
        extended_.opened.assign(opened.begin(), opened.end());
        plan().trenches.assign(all.begin(), all.end());
    }

    /// Runs beside enclosures make a mix, several enclosures a trunk; a chain with a run beside it stays a chain.
    void name_layout() {
        if (!plan().chains.empty()) return;
        const bool runs = std::any_of(plan().cables.begin(), plan().cables.end(),
                                      [](const PlannedCable& cable) { return cable.role == CableRole::home_run; });
        const std::size_t enclosures = plan().enclosures.size();
        if (enclosures == 0) {
            plan().layout = LayoutKind::home_runs;
        } else if (runs) {
            plan().layout = LayoutKind::mixed;
        } else if (enclosures > 1 || plan().layout != LayoutKind::trunk_one) {
            plan().layout = LayoutKind::trunk;
        }
    }

    const ExtensionTask& task_;
    const Scenario& scenario_;
    const RoutedExtension& routed_;
    ExtendedPlan extended_;
    std::string reason_;
    int built_enclosures_ = 0;
    LitTrunks trunks_;
    std::vector<LitStrands> relit_;
    std::vector<std::vector<int>> trunk_of_link_;  ///< For each new enclosure, for each of its links in order.
    std::vector<int> next_on_trunk_;
};

}  // namespace

ExtensionAssembly assemble(const ExtensionTask& task, const RoutedExtension& routed) {
    return Assembler(task, routed).run();
}

}  // namespace spadework
