#include "extension/untouched.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace spadework {

namespace {

std::string strand_name(const KeptStrand& strand) {
    return strand.cable + " strand " + std::to_string(strand.number);
}

/// What is otherwise; "" where nothing is.
std::string difference(const KeptStrand& before, const KeptStrand* after) {
    const std::string name = strand_name(before);
    if (after == nullptr) return name + " is gone";
    if (after->building != before.building || after->link != before.link || after->leg != before.leg)
        return name + " carries leg " + std::to_string(before.leg) + " no longer";
    if (after->near_adapter != before.near_adapter || after->far_adapter != before.far_adapter)
        return name + " sits in another adapter";
    if (after->near_port != before.near_port || after->far_port != before.far_port)
        return name + " is patched to another port";
    return "";
}

}  // namespace

Untouched compare_strands(const std::vector<KeptStrand>& before, const std::vector<KeptStrand>& after,
                          const std::vector<std::string>& gone) {
    std::map<std::pair<std::string, int>, const KeptStrand*> by_name;
    for (const KeptStrand& strand : after)
        by_name[{strand.cable, strand.number}] = &strand;
    Untouched result;
    std::set<std::pair<std::string, int>> links;
    for (const KeptStrand& strand : before) {
        if (strand.building.empty()) continue;
        const auto found = by_name.find({strand.cable, strand.number});
        const KeptStrand* now = found == by_name.end() ? nullptr : found->second;
        if (std::find(gone.begin(), gone.end(), strand.building) != gone.end()) {
            result.freed += 1;
            continue;
        }
        links.insert({strand.building, strand.link});
        const std::string how = difference(strand, now);
        if (how.empty()) {
            ++result.strands;
        } else {
            result.touched.push_back({strand.building, strand.link, how});
        }
    }
    result.links = static_cast<int>(links.size());
    return result;
}

}  // namespace spadework
