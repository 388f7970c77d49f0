#include "sheets/joined_strands.hpp"

#include <tuple>

#include "sheets/labels.hpp"

namespace spadework {

std::map<std::size_t, std::size_t> joined_strands(const StrandMap& map) {
    using Side = std::tuple<PlaceIndex, Opening>;
    std::map<Side, std::size_t> from_the_hub;
    for (std::size_t s = 0; s < map.size(); ++s) {
        if (map[s].far.holder == Holder::enclosure) from_the_hub[{map[s].far.place, map[s].far.adapter}] = s;
    }
    std::map<std::size_t, std::size_t> joined;
    for (std::size_t s = 0; s < map.size(); ++s) {
        if (map[s].near.holder != Holder::enclosure) continue;
        const auto trunk = from_the_hub.find({map[s].near.place, map[s].near.adapter});
        if (trunk == from_the_hub.end()) continue;
        joined[s] = trunk->second;
        joined[trunk->second] = s;
    }
    return joined;
}

std::string way_of(const Plan& plan, const StrandMap& map, const StrandTest& test) {
    std::string way;
    for (const std::size_t s : test.strands) {
        if (!way.empty()) way += " > ";
        way += strand_label(plan.cables[static_cast<std::size_t>(map[s].cable)], map[s].number);
    }
    return way;
}

const char* light_in(const Plan& plan, const MappedStrand& strand) {
    if (!strand.link) return "";
    if (plan.links[static_cast<std::size_t>(*strand.link)].strands == 1) return "both";
    return strand.leg == 1 ? "from hub" : "to hub";
}

}  // namespace spadework
