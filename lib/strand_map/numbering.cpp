#include <algorithm>
#include <set>

#include "layout/cut_trunk.hpp"
#include "strand_map/mapping.hpp"

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

/// Whether a strand of a trunk that was cut was led to an adapter at the cut.
bool ends_at_cut(const MapTask& task, const MappedStrand& strand) {
    const KeptStrand* before = task.before(strand);
    return before != nullptr && before->far_adapter > 0;
}

/// Gives the strands of one cable to the legs in it. Where the cable was cut, legs that go on may not have a strand
/// that ends there, and those that do not go on take such ones first.
class Giving {
public:
    Giving(const MapTask& task, StrandMap& strands) : task_(task), strands_(strands) {}

    /// Legs that had a strand before keep it; the others take the lowest that is free.
    void give(const std::vector<Leg>& legs) {
        std::vector<Leg> newcomers;
        for (const Leg& leg : legs) {
            const int before = task_.earlier.strand_of(task_.cable(strands_.front()).id, task_.building_of(leg.link),
                                                       task_.link(leg.link).number, leg.number);
            if (!take(before, leg)) newcomers.push_back(leg);
        }
        for (const Leg& leg : newcomers)
            take_one(leg);
    }

private:
    bool take(int number, const Leg& leg) {
        if (number < 1 || number > static_cast<int>(strands_.size())) return false;
        MappedStrand& strand = strands_[static_cast<std::size_t>(number) - 1];
        if (strand.link) return false;
        light(strand, leg);
        return true;
    }

    void take_one(const Leg& leg) {
        const std::vector<int> parts = trunk_parts_of(leg);
        for (const bool to_an_adapter : {true, false}) {
            for (const MappedStrand& strand : strands_) {
                if (leads(strand.number, parts, to_an_adapter) && take(strand.number, leg)) return;
            }
        }
    }

    /// The parts of this trunk that a link runs in.
    std::vector<int> trunk_parts_of(const Leg& leg) const {
        std::vector<int> parts;
        for (const int c : task_.link(leg.link).cables) {
            const bool next =
                !parts.empty() && task_.plan.cables[static_cast<std::size_t>(c)].spliced_to == parts.back();
            if (c == strands_.front().cable || next) parts.push_back(c);
        }
        return parts;
    }

    /// Whether a strand is spliced on from part to part, and how it ends at the last of them.
    bool leads(int number, const std::vector<int>& parts, bool to_an_adapter) const {
        for (const int c : parts) {
            const KeptStrand* before = task_.earlier.of(task_.plan.cables[static_cast<std::size_t>(c)].id, number);
            const bool ends = part_behind(task_.plan, c) && before != nullptr && before->far_adapter > 0;
            if (ends != (c == parts.back() && to_an_adapter)) return false;
        }
        return true;
    }

    const MapTask& task_;
    StrandMap& strands_;
};

/// Legs behind a cut have the numbers that they have before it.
void take_over(const std::vector<Leg>& legs, const StrandMap& part_before, StrandMap& strands) {
    for (const Leg& leg : legs) {
        const auto same = [&](const MappedStrand& strand) {
            return strand.link == leg.link && strand.leg == leg.number;
        };
        const auto before = std::ranges::find_if(part_before, same);
        if (before == part_before.end() || before->number > static_cast<int>(strands.size())) continue;
        light(strands[static_cast<std::size_t>(before->number) - 1], leg);
    }
}

/// Numbers behind a cut whose strands end there or at an earlier one: nothing can be lit in them from the hub.
std::set<int> cut_off(const MapTask& task, const StrandMap& part_before, const StrandMap& strands,
                      std::set<int> cut_off_before) {
    for (const MappedStrand& strand : strands) {
        const auto place = static_cast<std::size_t>(strand.number) - 1;
        if (place >= part_before.size()) continue;
        const MappedStrand& before = part_before[place];
        if ((before.link && !strand.link) || ends_at_cut(task, before)) cut_off_before.insert(strand.number);
    }
    return cut_off_before;
}

/// Spares first, then headroom; what is left stays beyond need.
void name_the_dark(const StrandNeed& need, const std::set<int>& unusable, StrandMap& strands) {
    int spare = need.spare;
    int headroom = need.headroom;
    for (MappedStrand& strand : strands) {
        if (strand.link || unusable.contains(strand.number)) continue;
        if (spare-- > 0) {
            strand.purpose = StrandPurpose::spare;
        } else if (headroom-- > 0) {
            strand.purpose = StrandPurpose::headroom;
        }
    }
}

}  // namespace

StrandMap numbered_strands(const MapTask& task, const ColourOrder& order) {
    std::vector<StrandMap> by_cable;
    std::vector<std::set<int>> unusable;
    for (std::size_t c = 0; c < task.plan.cables.size(); ++c) {
        StrandMap strands = bare_strands(task, static_cast<int>(c), order);
        const std::vector<Leg> legs = legs_in(task.plan, static_cast<int>(c));
        const std::optional<int>& spliced_to = task.plan.cables[c].spliced_to;
        unusable.emplace_back();
        if (spliced_to) {
            const auto before = static_cast<std::size_t>(*spliced_to);
            take_over(legs, by_cable[before], strands);
            unusable.back() = cut_off(task, by_cable[before], strands, unusable[before]);
        } else if (!strands.empty()) {
            Giving(task, strands).give(legs);
        }
        name_the_dark(task.plan.cables[c].need, unusable.back(), strands);
        by_cable.push_back(std::move(strands));
    }
    StrandMap map;
    for (const StrandMap& strands : by_cable)
        map.insert(map.end(), strands.begin(), strands.end());
    return map;
}

}  // namespace spadework
