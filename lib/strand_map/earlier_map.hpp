#pragma once

#include <map>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "strand_map/strand_map.hpp"

namespace spadework {

/// An earlier map, ready to be asked. The rows it was made of must outlive it.
class EarlierMap {
public:
    explicit EarlierMap(const std::vector<KeptStrand>& kept);

    /// Strand that carried this leg in this cable; 0 when none did.
    [[nodiscard]] int strand_of(const std::string& cable, const std::string& building, int link, int leg) const;
    /// What is known of a strand; null when nothing is.
    [[nodiscard]] const KeptStrand* of(const std::string& cable, int number) const;

private:
    std::map<std::tuple<std::string, std::string, int, int>, int> strand_of_leg_;
    std::map<std::pair<std::string, int>, const KeptStrand*> by_name_;
};

}  // namespace spadework
