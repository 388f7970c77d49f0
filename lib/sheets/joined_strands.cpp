#include "sheets/joined_strands.hpp"

#include <optional>
#include <tuple>

#include "sheets/labels.hpp"

namespace spadework {

namespace {

/// Where two strands meet in an enclosure: an adapter, or the splice of two of one number.
using Side = std::tuple<PlaceIndex, Holder, Opening>;

std::optional<Side> side_of(const StrandEnd& end, int number) {
    if (end.holder == Holder::enclosure) return Side{end.place, end.holder, end.adapter};
    if (end.holder == Holder::spliced) return Side{end.place, end.holder, {0, number}};
    return std::nullopt;
}

}  // namespace

std::map<std::size_t, std::size_t> joined_strands(const StrandMap& map) {
    std::map<Side, std::size_t> from_the_hub;
    for (std::size_t s = 0; s < map.size(); ++s) {
        if (const auto side = side_of(map[s].far, map[s].number)) from_the_hub[*side] = s;
    }
    std::map<std::size_t, std::size_t> joined;
    for (std::size_t s = 0; s < map.size(); ++s) {
        const auto side = side_of(map[s].near, map[s].number);
        const auto trunk = side ? from_the_hub.find(*side) : from_the_hub.end();
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
