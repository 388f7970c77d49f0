#pragma once

#include <optional>
#include <vector>

namespace spadework {

/// One power class of Ethernet power sourcing, IEEE 802.3 clauses 33 and 145.
struct PoeClass {
    int number = 0;
    int type = 1;
    double source_w = 0;  ///< Power the supplying port must set aside, watts.
    double device_w = 0;  ///< Power that surely arrives at the device, watts.
};

/// Class 0, which a device that does not classify itself falls into; then classes 1 to 8 in ascending power.
const std::vector<PoeClass>& poe_classes();

/// Smallest class from 1 that delivers `device_w` to the device; nothing above class 8 (71.3 W). A switch's budget is
/// spent at the class's source_w.
std::optional<PoeClass> poe_class_for(double device_w);

}  // namespace spadework
