#include "catalogue/poe_class.hpp"

#include <algorithm>

namespace spadework {

// IEEE 802.3 clause 33 (Types 1 and 2) and clause 145 (Types 3 and 4).
const std::vector<PoeClass>& poe_classes() {
    static const std::vector<PoeClass> classes = {
        {0, 1, 15.4, 12.95}, {1, 1, 4.0, 3.84},  {2, 1, 7.0, 6.49},  {3, 1, 15.4, 12.95}, {4, 2, 30.0, 25.5},
        {5, 3, 45.0, 40.0},  {6, 3, 60.0, 51.0}, {7, 4, 75.0, 62.0}, {8, 4, 90.0, 71.3},
    };
    return classes;
}

std::optional<PoeClass> poe_class_for(double device_w) {
    const auto& classes = poe_classes();
    const auto found = std::find_if(classes.begin() + 1, classes.end(),
                                    [device_w](const PoeClass& c) { return device_w <= c.device_w; });
    if (found == classes.end()) return std::nullopt;
    return *found;
}

}  // namespace spadework
