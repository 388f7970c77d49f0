#include "extension/trunk_cut.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "layout/cut_trunk.hpp"
#include "rates/cable_rates.hpp"

namespace spadework {

namespace {

bool takes_enclosure(const Scenario& scenario, const Plan& built, PlaceIndex place) {
    const auto stands_there = [place](const PlannedEnclosure& enclosure) { return enclosure.place == place; };
    return scenario.places[static_cast<std::size_t>(place)].enclosure_allowed &&
           std::none_of(built.enclosures.begin(), built.enclosures.end(), stands_there);
}

/// floor(whole * part / of), for 0 <= part <= of: the product need not fit 64 bits.
Length share(Length whole, Length part, Length of) {
    __extension__ using Wide = __int128;
    if (of == Length()) return {};
    return Length::from_millimetres(
        static_cast<std::int64_t>(Wide{whole.millimetres()} * part.millimetres() / of.millimetres()));
}

/// The part before the cut of a cable of these lengths, when its route is so long.
CableLengths lengths_before(const CableLengths& whole, Length route, Length longest) {
    CableLengths part;
    part.route = route;
    part.with_slack = route + share(whole.with_slack - whole.route, route, whole.route);
    part.ordered = part.with_slack + share(whole.ordered - whole.with_slack, route, whole.route);
    if (longest > Length()) {
        const std::int64_t joints = std::max<std::int64_t>(0, part.ordered.millimetres() - 1) / longest.millimetres();
        part.joints = static_cast<int>(std::min<std::int64_t>(joints, whole.joints));
    }
    return part;
}

CableLengths lengths_behind(const CableLengths& whole, const CableLengths& before) {
    return {whole.route - before.route, whole.with_slack - before.with_slack, whole.ordered - before.ordered,
            whole.joints - before.joints};
}

std::string unused_id(const Plan& plan, const std::string& wanted) {
    std::string id = wanted;
    const auto taken = [&](const PlannedCable& cable) { return cable.id == id; };
    for (int n = 2; std::any_of(plan.cables.begin(), plan.cables.end(), taken); ++n)
        id = wanted + "-" + std::to_string(n);
    return id;
}

/// Moves every cable from `at` on up by one, for a further one there.
void make_room_for_cable(Plan& plan, int at) {
    const auto move = [at](int& cable) { cable += cable >= at ? 1 : 0; };
    for (PlannedCable& cable : plan.cables) {
        if (cable.spliced_to) move(*cable.spliced_to);
    }
    for (PlannedEnclosure& enclosure : plan.enclosures)
        std::for_each(enclosure.trunks.begin(), enclosure.trunks.end(), move);
    for (PlannedLink& link : plan.links)
        std::for_each(link.cables.begin(), link.cables.end(), move);
}

int add_enclosure(Plan& plan, PlaceIndex place, int trunk) {
    const auto behind = std::find_if(plan.enclosures.begin(), plan.enclosures.end(),
                                     [place](const PlannedEnclosure& enclosure) { return enclosure.place > place; });
    const auto number = static_cast<int>(behind - plan.enclosures.begin());
    for (PlannedCable& cable : plan.cables) {
        if (cable.enclosure && *cable.enclosure >= number) ++*cable.enclosure;
    }
    PlannedEnclosure enclosure;
    enclosure.place = place;
    enclosure.trunks = {trunk};
    plan.enclosures.insert(behind, std::move(enclosure));
    return number;
}

void split_cable(const Scenario& scenario, const TrunkCut& cut, Plan& plan) {
    make_room_for_cable(plan, cut.cable);
    PlannedCable& whole = plan.cables[static_cast<std::size_t>(cut.cable)];
    PlannedCable before = whole;
    const auto middle = whole.steps.begin() + static_cast<std::ptrdiff_t>(cut.step);
    before.id = unused_id(plan, "trunk-" + scenario.places[static_cast<std::size_t>(cut.place)].id);
    before.steps.assign(whole.steps.begin(), middle);
    before.to = whole.from = cut.place;
    Length route;
    for (const Step& step : before.steps)
        route += scenario.segments[static_cast<std::size_t>(step.segment)].length;
    const Length longest = scenario.catalogue.cables[static_cast<std::size_t>(whole.product)].longest;
    before.lengths = lengths_before(whole.lengths, route, longest);
    whole.lengths = lengths_behind(whole.lengths, before.lengths);
    whole.steps.erase(whole.steps.begin(), middle);
    whole.spliced_to = cut.cable;
    plan.cables.insert(plan.cables.begin() + cut.cable, std::move(before));
}

}  // namespace

std::vector<TrunkCut> possible_cuts(const Scenario& scenario, const Plan& built) {
    std::vector<TrunkCut> cuts;
    for (std::size_t c = 0; c < built.cables.size(); ++c) {
        const PlannedCable& trunk = built.cables[c];
        if (trunk.role != CableRole::trunk) continue;
        PlaceIndex at = trunk.from;
        for (std::size_t s = 0; s < trunk.steps.size(); ++s) {
            const Segment& segment = scenario.segments[static_cast<std::size_t>(trunk.steps[s].segment)];
            at = segment.from == at ? segment.to : segment.from;
            if (at == trunk.to || at == trunk.from) continue;
            if (takes_enclosure(scenario, built, at)) cuts.push_back({static_cast<int>(c), at, s + 1});
        }
    }
    return cuts;
}

MadeCut make_cut(const Scenario& scenario, const Plan& built, const TrunkCut& cut) {
    MadeCut made;
    made.plan = built;
    made.near = cut.cable;
    made.far = cut.cable + 1;
    split_cable(scenario, cut, made.plan);
    made.enclosure = add_enclosure(made.plan, cut.place, made.near);
    made.plan.cables[static_cast<std::size_t>(made.near)].enclosure = made.enclosure;
    for (std::size_t l = 0; l < made.plan.links.size(); ++l) {
        PlannedLink& link = made.plan.links[l];
        const auto through = std::find(link.cables.begin(), link.cables.end(), made.far);
        if (through == link.cables.end()) continue;
        link.cables.insert(through, made.near);
        const GlassPath path = path_through(scenario, made.plan, link.cables);
        link.glass = path.glass;
        link.splices = path.splices;
        made.links.push_back(static_cast<int>(l));
    }
    return made;
}

WorkTime time_to_splice(const Scenario& scenario, const MadeCut& cut) {
    const PlannedCable& trunk = cut.plan.cables[static_cast<std::size_t>(cut.near)];
    const CableProduct& product = scenario.catalogue.cables[static_cast<std::size_t>(trunk.product)];
    return scenario.catalogue.splicing.set_up_time + scenario.catalogue.splicing.time_per_splice * product.strands;
}

std::vector<KeptStrand> renamed_by_cut(const std::vector<KeptStrand>& strands, const std::string& near,
                                       const std::string& far) {
    std::vector<KeptStrand> renamed;
    for (const KeptStrand& strand : strands) {
        renamed.push_back(strand);
        if (strand.cable != far) continue;
        renamed.back().near_adapter = renamed.back().near_port = 0;
        renamed.push_back(strand);
        renamed.back().cable = near;
        renamed.back().far_adapter = renamed.back().far_port = 0;
    }
    return renamed;
}

std::vector<KeptStrand> rejoined(const std::vector<KeptStrand>& strands, const std::string& near,
                                 const std::string& far) {
    std::map<int, KeptStrand> before;
    for (const KeptStrand& strand : strands) {
        if (strand.cable == near) before[strand.number] = strand;
    }
    std::vector<KeptStrand> whole;
    for (const KeptStrand& strand : strands) {
        if (strand.cable == near) continue;
        whole.push_back(strand);
        if (strand.cable != far) continue;
        KeptStrand& joined = whole.back();
        const KeptStrand& part = before[strand.number];
        const auto carried = [](const KeptStrand& one) { return std::tie(one.building, one.link, one.leg); };
        if (strand.building.empty() || carried(part) != carried(strand)) {
            joined = part;
            joined.cable = far;
            continue;
        }
        joined.near_adapter = part.near_adapter;
        joined.near_port = part.near_port;
    }
    return whole;
}

}  // namespace spadework
