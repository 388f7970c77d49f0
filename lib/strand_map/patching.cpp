#include <map>

#include "strand_map/mapping.hpp"
#include "strand_map/openings.hpp"

namespace spadework {

namespace {

/// The end of a link that is patched to gear: the strands of its first or last cable.
struct LinkEnd {
    int link = 0;
    Side side;
    std::vector<std::size_t> strands;  ///< Places in the map.
};

LinkEnd end_of(const MapTask& task, int link, const Side& side, bool far, const StrandMap& map) {
    LinkEnd end{link, side, {}};
    const int cable = far ? task.link(link).cables.back() : task.link(link).cables.front();
    for (std::size_t s = 0; s < map.size(); ++s) {
        if (map[s].cable == cable && map[s].link == link) end.strands.push_back(s);
    }
    return end;
}

/// The port that this end had, by the earlier map; 0 when it was not there.
int port_before(const MapTask& task, const LinkEnd& end, const StrandMap& map) {
    if (end.strands.empty()) return 0;
    const KeptStrand* kept = task.before(map[end.strands.front()]);
    if (kept == nullptr || kept->building != task.building_of(end.link)) return 0;
    return kept->link == task.link(end.link).number ? kept->*end.side.port : 0;
}

/// Both strands of a link go to one port: the one it had, else the lowest that is free.
void patch_all(const MapTask& task, const std::vector<LinkEnd>& ends, const Row& row, StrandMap& map) {
    Numbers numbers;
    std::vector<const LinkEnd*> newcomers;
    const auto patch_to = [&](const LinkEnd& end, int number) {
        for (const std::size_t s : end.strands)
            (map[s].*end.side.end).port = opening_at(row, number);
    };
    for (const LinkEnd& end : ends) {
        const int before = port_before(task, end, map);
        if (has_opening(row, before) && numbers.take(before)) {
            patch_to(end, before);
        } else {
            newcomers.push_back(&end);
        }
    }
    for (const LinkEnd* end : newcomers)
        patch_to(*end, numbers.take_lowest());
}

}  // namespace

void patch(const MapTask& task, StrandMap& map) {
    std::vector<LinkEnd> at_hub;
    std::map<BuildingIndex, std::vector<LinkEnd>> at_building;
    const int links = static_cast<int>(task.plan.links.size());
    for (int l = 0; l < links; ++l)
        at_building[task.link(l).building].push_back(end_of(task, l, far_side, true, map));
    for (int l = 0; l < links; ++l) {
        LinkEnd begin = end_of(task, l, near_side, false, map);
        auto& ends = task.link(l).from ? at_building[*task.link(l).from] : at_hub;
        ends.push_back(std::move(begin));
    }
    patch_all(task, at_hub, hub_ports(task.scenario, task.plan), map);
    for (const auto& [building, ends] : at_building)
        patch_all(task, ends, gear_ports(task.scenario, task.plan, building), map);
}

}  // namespace spadework
