#include <algorithm>
#include <map>
#include <optional>

#include "layout/cut_trunk.hpp"
#include "strand_map/mapping.hpp"
#include "strand_map/openings.hpp"

namespace spadework {

namespace {

/// An end of a strand that is to be plugged: the strand's place in the map, and which end.
struct LooseEnd {
    std::size_t strand = 0;
    Side side;
};

/// Plugs each loose end into the adapter it had, else into the lowest that is free.
void plug_all(const MapTask& task, const std::vector<LooseEnd>& ends, Holder holder, const Row& row, StrandMap& map) {
    Numbers numbers;
    std::vector<LooseEnd> newcomers;
    const auto plug_into = [&](const LooseEnd& loose, int number) {
        StrandEnd& end = map[loose.strand].*loose.side.end;
        end.holder = holder;
        end.adapter = opening_at(row, number);
    };
    for (const LooseEnd& loose : ends) {
        const KeptStrand* kept = task.before(map[loose.strand]);
        const int before = kept == nullptr ? 0 : kept->*loose.side.adapter;
        if (has_opening(row, before) && numbers.take(before)) {
            plug_into(loose, before);
        } else {
            newcomers.push_back(loose);
        }
    }
    for (const LooseEnd& loose : newcomers)
        plug_into(loose, numbers.take_lowest());
}

/// Whether a strand of a part that another is spliced to is led to an adapter there: it carries light that goes no
/// further, or was led there before.
bool ends_at_cut(const MapTask& task, const MappedStrand& strand, int behind) {
    const KeptStrand* before = task.before(strand);
    if (before != nullptr && before->far_adapter > 0) return true;
    if (!strand.link) return false;
    const std::vector<int>& way = task.link(*strand.link).cables;
    return std::find(way.begin(), way.end(), behind) == way.end();
}

void plug_trunks_into(const MapTask& task, int enclosure, StrandMap& map) {
    std::vector<LooseEnd> ends;
    for (std::size_t s = 0; s < map.size(); ++s) {
        const PlannedCable& trunk = task.cable(map[s]);
        if (trunk.role != CableRole::trunk || trunk.enclosure != enclosure) continue;
        const auto behind = part_behind(task.plan, map[s].cable);
        const bool ends_here =
            behind ? ends_at_cut(task, map[s], *behind) : map[s].purpose != StrandPurpose::beyond_need;
        if (ends_here) ends.push_back({s, far_side});
    }
    const Row row = enclosure_adapters(task.scenario, task.plan.enclosures[static_cast<std::size_t>(enclosure)]);
    plug_all(task, ends, Holder::enclosure, row, map);
}

/// Where a trunk was cut, strands that no adapter holds there are spliced to those of their number.
void splice_cut_trunks(const MapTask& task, StrandMap& map) {
    std::map<std::pair<int, int>, std::size_t> at;
    for (std::size_t s = 0; s < map.size(); ++s)
        at[{map[s].cable, map[s].number}] = s;
    for (MappedStrand& strand : map) {
        const std::optional<int>& before = task.cable(strand).spliced_to;
        const auto found = before ? at.find({*before, strand.number}) : at.end();
        if (found == at.end() || map[found->second].far.holder == Holder::enclosure) continue;
        map[found->second].far.holder = Holder::spliced;
        strand.near.holder = Holder::spliced;
    }
}

/// A drop's strand in use faces the trunk's strand of the same leg across one adapter.
void plug_drops(const MapTask& task, StrandMap& map) {
    std::map<std::pair<int, int>, StrandEnd> end_of_leg;
    for (const MappedStrand& strand : map) {
        if (strand.link && task.cable(strand).role == CableRole::trunk)
            end_of_leg[{*strand.link, strand.leg}] = strand.far;
    }
    for (MappedStrand& strand : map) {
        if (!strand.link || task.cable(strand).role != CableRole::drop) continue;
        const auto faced = end_of_leg.find({*strand.link, strand.leg});
        if (faced != end_of_leg.end()) strand.near = faced->second;
    }
}

/// Whether that end of a strand comes to the hub or a building rather than to an enclosure.
bool comes_to_a_panel(const MapTask& task, const MappedStrand& strand, bool far) {
    const CableRole role = task.cable(strand).role;
    if (!far && task.cable(strand).spliced_to) return false;
    return far ? role != CableRole::trunk : role != CableRole::drop;
}

/// At the hub and in buildings every strand that is not beyond need has an adapter of its own.
void plug_panels(const MapTask& task, StrandMap& map) {
    std::map<PlaceIndex, std::vector<LooseEnd>> ends_at;
    for (const bool far : {true, false}) {
        const Side& side = far ? far_side : near_side;
        for (std::size_t s = 0; s < map.size(); ++s) {
            const bool wanted = map[s].purpose != StrandPurpose::beyond_need;
            if (wanted && comes_to_a_panel(task, map[s], far)) ends_at[(map[s].*side.end).place].push_back({s, side});
        }
    }
    for (const auto& [place, ends] : ends_at) {
        const bool hub = place == task.scenario.hub.place;
        plug_all(task, ends, hub ? Holder::hub_panel : Holder::building_outlet, Row{}, map);
    }
}

}  // namespace

void plug(const MapTask& task, StrandMap& map) {
    for (std::size_t e = 0; e < task.plan.enclosures.size(); ++e)
        plug_trunks_into(task, static_cast<int>(e), map);
    splice_cut_trunks(task, map);
    plug_drops(task, map);
    plug_panels(task, map);
}

}  // namespace spadework
