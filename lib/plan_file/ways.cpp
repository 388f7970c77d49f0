#include "plan_file/ways.hpp"

#include "rates/opening_rates.hpp"

namespace spadework::plan_file {

std::vector<std::string> way_names(const Scenario& scenario, SegmentIndex segment) {
    std::vector<std::string> names;
    for (const Way& way : ways_of(scenario, segment)) {
        const bool is_ground = way.method != &scenario.existing_duct && way.method != &scenario.pole_line;
        names.push_back(is_ground ? way.method->id : way.ground);
    }
    return names;
}

}  // namespace spadework::plan_file
