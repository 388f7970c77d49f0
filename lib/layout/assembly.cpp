#include "layout/assembly.hpp"

#include <algorithm>
#include <set>

#include "layout/cable_pieces.hpp"
#include "layout/duct_room.hpp"
#include "layout/least_costs.hpp"
#include "layout/link_choice.hpp"
#include "layout/ring_rule.hpp"

namespace spadework {

namespace {

/// What one cable route carries: how many links, and how many strands with spares.
struct Load {
    int links = 0;
    StrandNeed need;
};

/// The cables laid along one route, as indices into the plan, and for each link on the route the cable it runs in.
struct LaidRoute {
    std::vector<int> cables;
    std::vector<int> cable_of_link;
};

/// Builds one plan; the first thing that cannot be done is the reason it fails.
class Assembler {
public:
    Assembler(const Scenario& scenario, const RoutedLayout& routed) : scenario_(scenario), routed_(routed) {}

    Assembly run() {
        plan_.layout = routed_.kind;
        plan_.strand_use = scenario_.rules.strand_use;
        plan_.chains = routed_.chains;
        for (std::size_t e = 0; e < routed_.enclosures.size(); ++e)
            lay_trunk(static_cast<int>(e));
        for (const RoutedBuilding& building : routed_.buildings)
            lay_service(building);
        for (std::size_t c = 0; c < routed_.closings.size(); ++c)
            lay_closing(c);
        Assembly assembly;
        assembly.notes = respect_duct_room(scenario_, plan_.cables);
        if (routed_.kind == LayoutKind::ring) {
            for (std::string& note : notes_on_cuts(scenario_, routed_))
                assembly.notes.push_back(std::move(note));
        }
        open_trenches();
        if (in_chains()) {
            link_chains();
        } else {
            link_from_hub();
        }
        fit_hub();
        assembly.reason = reason_;
        if (!broken_) (reason_.empty() ? assembly.plan : assembly.nearest) = std::move(plan_);
        return assembly;
    }

private:
    /// No product will do, but the plan can be written down all the same.
    void fall_short(const std::string& reason) {
        if (reason_.empty()) reason_ = reason;
    }

    /// There is nothing to write down.
    void fail(const std::string& reason) {
        fall_short(reason);
        broken_ = true;
    }

    const Building& building(BuildingIndex index) const { return scenario_.buildings[static_cast<std::size_t>(index)]; }
    const std::string& place_id(PlaceIndex index) const { return scenario_.places[static_cast<std::size_t>(index)].id; }

    Length length_of(const Route& route) const {
        Length length;
        for (const Step& step : route.steps)
            length += scenario_.segments[static_cast<std::size_t>(step.segment)].length;
        return length;
    }

    int handholes_passed(const Route& route) const {
        int handholes = 0;
        PlaceIndex at = route.from;
        for (const Step& step : route.steps) {
            const Segment& segment = scenario_.segments[static_cast<std::size_t>(step.segment)];
            at = segment.from == at ? segment.to : segment.from;
            const bool passes = at != route.to;
            if (passes && scenario_.places[static_cast<std::size_t>(at)].kind == PlaceKind::handhole) ++handholes;
        }
        return handholes;
    }

    LaidRoute lay(const Route& route, const Load& load, const PlannedCable& model) {
        LaidRoute laid;
        laid.cable_of_link.assign(static_cast<std::size_t>(load.links), -1);
        const Length length = length_of(route);
        const auto pieces = pieces_for(scenario_, load.need, load.links, length, passage_cost(scenario_, route.steps));
        if (!pieces) {
            fail("the catalogue has no cable that holds the " + std::to_string(load.need.total()) + " strands of " +
                 model.id);
            return laid;
        }
        for (std::size_t p = 0; p < pieces->size(); ++p) {
            const CablePiece& piece = (*pieces)[p];
            PlannedCable cable = model;
            if (p > 0) cable.id += "-" + std::to_string(p + 1);
            cable.from = route.from;
            cable.to = route.to;
            cable.steps = route.steps;
            cable.product = piece.product;
            cable.need = piece.need;
            cable.lengths = cable_lengths(scenario_.catalogue.cables[static_cast<std::size_t>(piece.product)], length,
                                          handholes_passed(route), scenario_.rules);
            const int index = static_cast<int>(plan_.cables.size());
            plan_.cables.push_back(std::move(cable));
            laid.cables.push_back(index);
            for (const int link : piece.links)
                laid.cable_of_link[static_cast<std::size_t>(link)] = index;
        }
        return laid;
    }

    void lay_trunk(int enclosure) {
        const RoutedEnclosure& routed = routed_.enclosures[static_cast<std::size_t>(enclosure)];
        PlannedEnclosure planned;
        planned.place = routed.place;
        int links = 0;
        for (const RoutedBuilding& served : routed_.buildings) {
            if (served.served_by != enclosure) continue;
            planned.serves.push_back(served.building);
            links += link_count(building(served.building));
        }
        const int in_use = links * strands_per_link(scenario_.rules.strand_use);
        planned.need = trunk_need(in_use, scenario_.rules, scenario_.growth);
        PlannedCable model;
        model.id = "trunk-" + place_id(routed.place);
        model.role = CableRole::trunk;
        model.enclosure = enclosure;
        const LaidRoute laid = lay(routed.trunk, {links, planned.need}, model);
        planned.trunks = laid.cables;
        const auto products = cheapest_enclosures(scenario_, planned.need.total());
        if (products) {
            planned.products = *products;
        } else {
            fail("the catalogue has no enclosure for the " + std::to_string(planned.need.total()) + " strands at " +
                 place_id(routed.place));
        }
        plan_.enclosures.push_back(std::move(planned));
        trunk_cable_of_link_.push_back(laid.cable_of_link);
    }

    int links_on_service(BuildingIndex index) const {
        return in_chains() ? links_per_hop(scenario_) : link_count(building(index));
    }

    bool in_chains() const { return routed_.kind == LayoutKind::daisy_chain || routed_.kind == LayoutKind::ring; }

    void lay_service(const RoutedBuilding& routed) {
        PlannedCable model;
        model.building = routed.building;
        if (in_chains()) {
            model.role = CableRole::hop;
        } else if (routed.served_by >= 0) {
            model.role = CableRole::drop;
            model.enclosure = routed.served_by;
        }
        const char* prefix = model.role == CableRole::hop ? "hop-" : model.role == CableRole::drop ? "drop-" : "run-";
        model.id = prefix + building(routed.building).id;
        const int links = links_on_service(routed.building);
        const int in_use = links * strands_per_link(scenario_.rules.strand_use);
        service_.push_back(lay(routed.route, {links, drop_need(in_use, scenario_.rules)}, model));
    }

    /// The cable that closes a ring.
    void lay_closing(std::size_t chain) {
        PlannedCable model;
        model.building = routed_.chains[chain].back();
        model.role = CableRole::closing;
        model.id = "closing-" + building(*model.building).id;
        const int links = links_per_hop(scenario_);
        const int in_use = links * strands_per_link(scenario_.rules.strand_use);
        closings_.push_back(lay(routed_.closings[chain], {links, drop_need(in_use, scenario_.rules)}, model));
    }

    void open_trenches() {
        std::set<Step> opened;
        for (const PlannedCable& cable : plan_.cables)
            opened.insert(cable.steps.begin(), cable.steps.end());
        plan_.trenches.assign(opened.begin(), opened.end());
    }

    void light(PlannedLink link) {
        if (broken_) return;
        link.strands = strands_per_link(scenario_.rules.strand_use);
        link.mated_pairs = static_cast<int>(link.cables.size()) + 1;
        link.splices = 0;
        for (const int c : link.cables) {
            const PlannedCable& cable = plan_.cables[static_cast<std::size_t>(c)];
            link.glass += glass_of(cable.lengths, scenario_.rules);
            link.splices += splices_in(cable.lengths, scenario_.rules);
        }
        const GlassPath path{link.glass, link.mated_pairs, link.splices};
        auto lit = cheapest_lighting(scenario_, link.rate, path);
        if (!lit) {
            fall_short("building " + building(link.building).id + ": " + why_no_optic(scenario_, link.rate, path));
            lit = nearest_lighting(scenario_, link.rate, path);
        }
        if (!lit) return fail("no optic of the strand use");
        link.optic = lit->optic;
        link.attenuator_at_start = lit->attenuator_at_start;
        link.attenuator_at_end = lit->attenuator_at_end;
        plan_.links.push_back(std::move(link));
    }

    void place_gear(BuildingIndex index, const GearNeed& need) {
        auto gear = cheapest_building_gear(scenario_, building(index), need);
        if (!gear) {
            fall_short("building " + building(index).id + ": no gear in the catalogue has " +
                       std::to_string(need.optic_ports) + " optic ports at " + to_text(need.rate) +
                       " with the ports and power its devices need");
            gear = nearest_building_gear(scenario_, building(index), need);
        }
        if (!gear) return fail("no gear for buildings");
        plan_.building_gear.push_back({index, *gear});
    }

    void link_from_hub() {
        std::vector<int> next_on_trunk(plan_.enclosures.size(), 0);
        for (std::size_t b = 0; b < routed_.buildings.size(); ++b) {
            const RoutedBuilding& routed = routed_.buildings[b];
            int number = 0;
            BitRate fastest;
            for (const LinkDemand& demand : building(routed.building).links) {
                fastest = std::max(fastest, demand.rate);
                for (int i = 0; i < demand.count; ++i, ++number) {
                    PlannedLink link;
                    link.building = routed.building;
                    link.number = number + 1;
                    link.rate = demand.rate;
                    if (routed.served_by >= 0) {
                        const auto enclosure = static_cast<std::size_t>(routed.served_by);
                        const auto on_trunk = static_cast<std::size_t>(next_on_trunk[enclosure]++);
                        link.cables.push_back(trunk_cable_of_link_[enclosure][on_trunk]);
                    }
                    link.cables.push_back(service_[b].cable_of_link[static_cast<std::size_t>(number)]);
                    light(std::move(link));
                }
            }
            place_gear(routed.building, {number, fastest});
            plan_.hub_ports += number;
        }
    }

    std::size_t position_of(BuildingIndex index) const {
        const auto found = std::find_if(routed_.buildings.begin(), routed_.buildings.end(),
                                        [index](const RoutedBuilding& routed) { return routed.building == index; });
        return static_cast<std::size_t>(found - routed_.buildings.begin());
    }

    void link_chains() {
        const int links = links_per_hop(scenario_);
        const BitRate rate = fastest_rate(scenario_);
        for (std::size_t c = 0; c < routed_.chains.size(); ++c) {
            const std::vector<BuildingIndex>& chain = routed_.chains[c];
            for (std::size_t i = 0; i < chain.size(); ++i) {
                light_hop(service_[position_of(chain[i])], chain[i],
                          i > 0 ? std::optional(chain[i - 1]) : std::nullopt);
                const bool passes = i + 1 < chain.size() || routed_.kind == LayoutKind::ring;
                place_gear(chain[i], {passes ? 2 * links : links, rate});
            }
            plan_.hub_ports += links;
        }
        for (std::size_t c = 0; c < closings_.size(); ++c) {
            light_hop(closings_[c], routed_.chains[c].back(), std::nullopt, links);
            plan_.hub_ports += links;
        }
        const auto by_building = [](const auto& a, const auto& b) { return a.building < b.building; };
        std::stable_sort(plan_.links.begin(), plan_.links.end(), by_building);
        std::stable_sort(plan_.building_gear.begin(), plan_.building_gear.end(), by_building);
    }

    /// All links of a hop, numbered on from those the building has already.
    void light_hop(const LaidRoute& hop, BuildingIndex to, std::optional<BuildingIndex> from, int numbered = 0) {
        for (std::size_t i = 0; i < hop.cable_of_link.size(); ++i) {
            PlannedLink link;
            link.building = to;
            link.from = from;
            link.number = numbered + static_cast<int>(i) + 1;
            link.rate = fastest_rate(scenario_);
            link.cables.push_back(hop.cable_of_link[i]);
            light(std::move(link));
        }
    }

    void fit_hub() {
        const auto gear = cheapest_hub_gear(scenario_, plan_.hub_ports, fastest_rate(scenario_));
        if (!gear) return fall_short(why_no_hub_gear(scenario_, plan_.hub_ports, fastest_rate(scenario_)));
        plan_.hub_gear = *gear;
    }

    const Scenario& scenario_;
    const RoutedLayout& routed_;
    Plan plan_;
    std::string reason_;
    bool broken_ = false;
    std::vector<std::vector<int>> trunk_cable_of_link_;  ///< For each enclosure, for each link in building order.
    std::vector<LaidRoute> service_;                     ///< Parallel to routed_.buildings.
    std::vector<LaidRoute> closings_;                    ///< Parallel to routed_.closings.
};

}  // namespace

Assembly assemble(const Scenario& scenario, const RoutedLayout& routed) {
    return Assembler(scenario, routed).run();
}

}  // namespace spadework
