#include <algorithm>

#include "strand_map/mapping.hpp"
#include "strand_map/openings.hpp"

namespace spadework {

namespace {

/// A strand's worth of a link.
struct Leg {
    int link = 0;
    int number = 0;
};

std::vector<Leg> legs_in(const Plan& plan, int cable) {
    std::vector<Leg> legs;
    for (std::size_t l = 0; l < plan.links.size(); ++l) {
        if (std::ranges::find(plan.links[l].cables, cable) == plan.links[l].cables.end()) continue;
        for (int number = 1; number <= plan.links[l].strands; ++number)
            legs.push_back({static_cast<int>(l), number});
    }
    return legs;
}

/// The strands of one cable, all beyond need so far.
StrandMap bare_strands(const MapTask& task, int c, const ColourOrder& order) {
    const PlannedCable& cable = task.plan.cables[static_cast<std::size_t>(c)];
    const CableProduct& product = task.scenario.catalogue.cables[static_cast<std::size_t>(cable.product)];
    StrandMap strands(static_cast<std::size_t>(product.strands));
    for (std::size_t i = 0; i < strands.size(); ++i) {
        strands[i].cable = c;
        strands[i].number = static_cast<int>(i) + 1;
        strands[i].colour = strand_colour(strands[i].number, product.strands_per_tube, order);
        strands[i].near.place = cable.from;
        strands[i].far.place = cable.to;
    }
    return strands;
}

void light(MappedStrand& strand, const Leg& leg) {
    strand.purpose = StrandPurpose::link;
    strand.link = leg.link;
    strand.leg = leg.number;
}

/// Legs that had a strand before keep it; the others take the lowest that is free.
void give_strands(const MapTask& task, const std::vector<Leg>& legs, StrandMap& strands) {
    Numbers numbers;
    std::vector<Leg> newcomers;
    const int most = static_cast<int>(strands.size());
    for (const Leg& leg : legs) {
        const int before = task.earlier.strand_of(task.cable(strands.front()).id, task.building_of(leg.link),
                                                  task.link(leg.link).number, leg.number);
        if (before <= most && numbers.take(before)) {
            light(strands[static_cast<std::size_t>(before) - 1], leg);
        } else {
            newcomers.push_back(leg);
        }
    }
    for (const Leg& leg : newcomers) {
        const int number = numbers.take_lowest();
        if (number <= most) light(strands[static_cast<std::size_t>(number) - 1], leg);
    }
}

/// Spares first, then headroom; what is left stays beyond need.
void name_the_dark(const StrandNeed& need, StrandMap& strands) {
    int spare = need.spare;
    int headroom = need.headroom;
    for (MappedStrand& strand : strands) {
        if (strand.link) continue;
        if (spare-- > 0) {
            strand.purpose = StrandPurpose::spare;
        } else if (headroom-- > 0) {
            strand.purpose = StrandPurpose::headroom;
        }
    }
}

}  // namespace

StrandMap numbered_strands(const MapTask& task, const ColourOrder& order) {
    StrandMap map;
    for (std::size_t c = 0; c < task.plan.cables.size(); ++c) {
        StrandMap strands = bare_strands(task, static_cast<int>(c), order);
        if (strands.empty()) continue;
        give_strands(task, legs_in(task.plan, static_cast<int>(c)), strands);
        name_the_dark(task.plan.cables[c].need, strands);
        map.insert(map.end(), strands.begin(), strands.end());
    }
    return map;
}

}  // namespace spadework
