#include "strand_map/earlier_map.hpp"

namespace spadework {

EarlierMap::EarlierMap(const std::vector<KeptStrand>& kept) {
    for (const KeptStrand& strand : kept) {
        by_name_[{strand.cable, strand.number}] = &strand;
        if (!strand.building.empty())
            strand_of_leg_[{strand.cable, strand.building, strand.link, strand.leg}] = strand.number;
    }
}

int EarlierMap::strand_of(const std::string& cable, const std::string& building, int link, int leg) const {
    const auto found = strand_of_leg_.find({cable, building, link, leg});
    return found == strand_of_leg_.end() ? 0 : found->second;
}

const KeptStrand* EarlierMap::of(const std::string& cable, int number) const {
    const auto found = by_name_.find({cable, number});
    return found == by_name_.end() ? nullptr : found->second;
}

}  // namespace spadework
