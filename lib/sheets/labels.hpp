#pragma once

#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "strand_map/strand_map.hpp"

namespace spadework {

/// One label to print and stick on: what it marks, where it goes, and its two lines.
struct Label {
    std::string marks;  ///< "cable end", "strand end", "enclosure", "gear", "hub gear".
    PlaceIndex place = 0;
    std::string line_1;  ///< The name: "trunk-lawn", "trunk-lawn/3", "enclosure lawn".
    std::string line_2;  ///< What it leads to: "to lawn, 24 strands", "hub panel 3, mill link 1".
};

/// Every label of a plan: both ends of each cable, both ends of each strand that is plugged, each enclosure and each
/// piece of gear. Place by place, as a roll
/// is used up: enclosures and gear, then cables, then strands.
std::vector<Label> labels(const Scenario& scenario, const Plan& plan, const StrandMap& map);

/// "trunk-lawn/3": what strand 3 of a cable is called on labels and sheets.
std::string strand_label(const PlannedCable& cable, int number);

/// "hub panel 3", "enclosure 1 adapter 3", "outlet 2", "stored".
std::string adapter_in_words(const StrandEnd& end);

/// "gear 1 port 3", "present gear port 2"; empty where no patch cord leads on.
std::string port_in_words(const StrandEnd& end);

}  // namespace spadework
