#include "extension/assembling.hpp"

#include <algorithm>
#include <set>

#include "extension/plan_order.hpp"
#include "layout/cable_pieces.hpp"
#include "layout/cut_trunk.hpp"
#include "layout/link_choice.hpp"
#include "rates/cable_rates.hpp"
#include "rates/gear_rates.hpp"
#include "rates/opening_rates.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

/// A cable of so many links along a route, before it is cut into products.
struct Load {
    int links = 0;
    StrandNeed need;
};

/// Taking `strands` into use: of those set aside, headroom goes first, then spares beyond the policy's, the others
/// last, so that as many adapters are plugged as before as long as that will do.
StrandNeed with_more_in_use(StrandNeed need, int strands, int of_product, int spare_by_policy) {
    need.in_use += strands;
    const int from_headroom = std::min(need.headroom, strands);
    need.headroom -= from_headroom;
    need.spare -= std::clamp(need.spare - spare_by_policy, 0, strands - from_headroom);
    need.spare = std::max(0, std::min(need.spare, of_product - need.in_use));
    need.headroom = std::max(0, std::min(need.headroom, of_product - need.in_use - need.spare));
    return need;
}

class Assembler {
public:
    Assembler(const ExtensionTask& task, const RoutedExtension& routed)
        : task_(task), scenario_(task.scenario), routed_(routed), dark_(task.works.dark_strands) {
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
    int strands_of(const PlannedCable& cable) const {
        return scenario_.catalogue.cables[static_cast<std::size_t>(cable.product)].strands;
    }

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
        for (const RoutedAddition& addition : routed_.additions)
            pass(addition.route);
    }

    std::string unused_id(const std::string& wanted) {
        std::set<std::string> taken;
        for (const PlannedCable& cable : plan().cables)
            taken.insert(cable.id);
        std::string id = wanted;
        for (int n = 2; taken.contains(id); ++n)
            id = wanted + "-" + std::to_string(n);
        return id;
    }

    struct Measure {
        Length length;
        int handholes = 0;
    };

    Measure measured(const Route& route) const {
        Measure way;
        PlaceIndex at = route.from;
        for (const Step& step : route.steps) {
            const Segment& segment = scenario_.segments[static_cast<std::size_t>(step.segment)];
            way.length += segment.length;
            at = segment.from == at ? segment.to : segment.from;
            if (at != route.to && scenario_.places[static_cast<std::size_t>(at)].kind == PlaceKind::handhole)
                ++way.handholes;
        }
        return way;
    }

    /// Lays a route; for each of its links the cable that it runs in.
    std::vector<int> lay(const Route& route, const Load& load, PlannedCable model) {
        std::vector<int> cable_of_link(static_cast<std::size_t>(load.links), -1);
        const Measure way = measured(route);
        const auto pieces = pieces_for(scenario_, load.need, load.links, way.length);
        if (!pieces) {
            fail("the catalogue has no cable that holds the " + std::to_string(load.need.total()) + " strands of " +
                 model.id);
            return cable_of_link;
        }
        model.from = route.from;
        model.to = route.to;
        model.steps = route.steps;
        const std::string wanted = model.id;
        for (const CablePiece& piece : *pieces) {
            PlannedCable cable = model;
            cable.id = unused_id(wanted);
            cable.product = piece.product;
            cable.need = piece.need;
            cable.lengths = cable_lengths(scenario_.catalogue.cables[static_cast<std::size_t>(piece.product)],
                                          way.length, way.handholes, scenario_.rules);
            const int index = static_cast<int>(plan().cables.size());
            extended_.cables.push_back(index);
            for (const int link : piece.links)
                cable_of_link[static_cast<std::size_t>(link)] = index;
            plan().cables.push_back(std::move(cable));
            dark_.push_back(strands_of(plan().cables.back()));
        }
        return cable_of_link;
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

    /// A built trunk with dark strands for one more link, lit in all its parts; -1 where none has any left.
    int light_trunk(int enclosure, int strands) {
        for (const int c : plan().enclosures[static_cast<std::size_t>(enclosure)].trunks) {
            const std::vector<int> parts = parts_of_trunk(plan(), c);
            const auto lacks = [&](int part) { return dark_[static_cast<std::size_t>(part)] < strands; };
            if (std::any_of(parts.begin(), parts.end(), lacks)) continue;
            light_parts(parts, strands);
            const auto same = [c](const LitStrands& lit) { return lit.cable == c; };
            const auto found = std::find_if(extended_.lit.begin(), extended_.lit.end(), same);
            if (found == extended_.lit.end()) {
                extended_.lit.push_back({c, strands});
            } else {
                found->strands += strands;
            }
            return c;
        }
        fail("the trunk to " + place_id(plan().enclosures[static_cast<std::size_t>(enclosure)].place) +
             " has not enough dark strands left");
        return -1;
    }

    /// Strands that are lit as far as a cut are dark for good behind it; as many fewer are set aside there. Those that
    /// ended dark at the cut are lit first.
    void light_parts(const std::vector<int>& parts, int strands) {
        std::vector<int> whole = parts;
        while (const auto behind = part_behind(plan(), whole.back()))
            whole.push_back(*behind);
        std::vector<StrandNeed> ended;
        for (const int part : whole)
            ended.push_back(strands_ending(plan(), part));
        const std::size_t last = parts.size() - 1;
        const int ended_dark = whole.size() > parts.size() ? std::min(strands, ended[last].spare) : 0;
        ended[last].spare -= ended_dark;
        for (std::size_t i = 0; i < whole.size(); ++i) {
            dark_[static_cast<std::size_t>(whole[i])] -= i <= last ? strands : strands - ended_dark;
            if (i <= last) light_part(whole[i], strands, ended_dark);
            if (i == 0) continue;
            const StrandNeed& before = plan().cables[static_cast<std::size_t>(whole[i - 1])].need;
            StrandNeed& need = plan().cables[static_cast<std::size_t>(whole[i])].need;
            need.spare = std::min(need.spare, std::max(0, before.spare - ended[i - 1].spare));
            need.headroom = std::min(need.headroom, std::max(0, before.headroom - ended[i - 1].headroom));
        }
    }

    /// `of_spares` of the strands are among the part's spares.
    void light_part(int part, int strands, int of_spares) {
        PlannedCable& cable = plan().cables[static_cast<std::size_t>(part)];
        const int policy = trunk_need(cable.need.in_use + strands, scenario_.rules, scenario_.growth).spare;
        cable.need.spare -= of_spares;
        cable.need.in_use += of_spares;
        cable.need = with_more_in_use(cable.need, strands - of_spares, strands_of(cable), policy);
    }

    /// The trunk that the next link through the source runs in; -1 from the hub or where there is none.
    int trunk_for_link(const Source& source, int strands) {
        if (source.kind == Source::Kind::hub) return -1;
        if (source.kind == Source::Kind::built_enclosure) return light_trunk(source.enclosure, strands);
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
        const bool from_hub = addition.source.kind == Source::Kind::hub;
        PlannedCable model;
        model.building = addition.building;
        model.id = (from_hub ? "run-" : "drop-") + added.id;
        if (!from_hub) {
            model.role = CableRole::drop;
            const bool built = addition.source.kind == Source::Kind::built_enclosure;
            model.enclosure = addition.source.enclosure + (built ? 0 : built_enclosures_);
            plan().enclosures[static_cast<std::size_t>(*model.enclosure)].serves.push_back(addition.building);
        }
        const int links = link_count(added);
        const int strands = strands_per_link(scenario_.rules.strand_use);
        const auto own = lay(addition.route, {links, drop_need(links * strands, scenario_.rules)}, model);
        int number = 0;
        BitRate fastest;
        for (const LinkDemand& demand : added.links) {
            fastest = std::max(fastest, demand.rate);
            for (int i = 0; i < demand.count; ++i, ++number) {
                PlannedLink link;
                link.building = addition.building;
                link.number = number + 1;
                link.rate = demand.rate;
                link.strands = strands;
                if (!from_hub) link.cables = way_in_trunks(addition.source, strands);
                link.cables.push_back(own[static_cast<std::size_t>(number)]);
                light(std::move(link));
            }
        }
        place_gear(addition.building, number, fastest);
        plan().hub_ports += number;
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

    void place_gear(BuildingIndex index, int ports, BitRate rate) {
        const auto gear = cheapest_building_gear(scenario_, building(index), {ports, rate});
        if (!gear) {
            return fail("building " + building(index).id + ": no gear in the catalogue has " + std::to_string(ports) +
                        " optic ports at " + to_text(rate) + " with the ports and power its devices need");
        }
        extended_.gear.push_back(static_cast<int>(plan().building_gear.size()));
        plan().building_gear.push_back({index, *gear});
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
        if (!task_.hub_gear) return fail(task_.why_no_hub_gear);
        extended_.hub_gear = *task_.hub_gear;
        plan().hub_gear.insert(plan().hub_gear.end(), task_.hub_gear->begin(), task_.hub_gear->end());
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
    std::vector<int> dark_;                        ///< For each cable of the plan so far.
    std::vector<std::vector<int>> trunk_of_link_;  ///< For each new enclosure, for each of its links in order.
    std::vector<int> next_on_trunk_;
};

}  // namespace

ExtensionAssembly assemble(const ExtensionTask& task, const RoutedExtension& routed) {
    return Assembler(task, routed).run();
}

}  // namespace spadework
