#include "failures/flood.hpp"

namespace spadework {

Flood::Flood(const Scenario& scenario, const Plan& plan)
    : scenario_(scenario),
      plan_(plan),
      links_in_(scenario.segments.size()),
      links_through_(plan.enclosures.size()),
      links_at_(scenario.buildings.size() + 1) {
    const auto note = [](std::vector<int>& links, int link) {
        if (links.empty() || links.back() != link) links.push_back(link);
    };
    for (std::size_t l = 0; l < plan.links.size(); ++l) {
        const PlannedLink& link = plan.links[l];
        const int number = static_cast<int>(l);
        for (const int c : link.cables) {
            const PlannedCable& cable = plan.cables[static_cast<std::size_t>(c)];
            for (const Step& step : cable.steps)
                note(links_in_[static_cast<std::size_t>(step.segment)], number);
            if (cable.enclosure) note(links_through_[static_cast<std::size_t>(*cable.enclosure)], number);
        }
        links_at_[static_cast<std::size_t>(link.building)].push_back(number);
        links_at_[link.from ? static_cast<std::size_t>(*link.from) : scenario.buildings.size()].push_back(number);
    }
}

const std::vector<int>& Flood::links_in(SegmentIndex segment) const {
    return links_in_[static_cast<std::size_t>(segment)];
}

const std::vector<int>& Flood::links_through(int enclosure) const {
    return links_through_[static_cast<std::size_t>(enclosure)];
}

std::vector<BuildingIndex> Flood::lost(const std::vector<int>& links_down, BuildingIndex gear_down) const {
    const std::size_t hub = scenario_.buildings.size();
    std::vector<bool> down(plan_.links.size(), false);
    for (const int link : links_down)
        down[static_cast<std::size_t>(link)] = true;
    std::vector<bool> reached(hub + 1, false);
    reached[hub] = true;
    if (gear_down >= 0) reached[static_cast<std::size_t>(gear_down)] = true;  // not to be entered
    std::vector<std::size_t> waiting = {hub};
    while (!waiting.empty()) {
        const std::size_t at = waiting.back();
        waiting.pop_back();
        for (const int l : links_at_[at]) {
            if (down[static_cast<std::size_t>(l)]) continue;
            const PlannedLink& link = plan_.links[static_cast<std::size_t>(l)];
            const std::size_t near = link.from ? static_cast<std::size_t>(*link.from) : hub;
            const std::size_t far = static_cast<std::size_t>(link.building);
            const std::size_t next = near == at ? far : near;
            if (reached[next]) continue;
            reached[next] = true;
            waiting.push_back(next);
        }
    }
    if (gear_down >= 0) reached[static_cast<std::size_t>(gear_down)] = false;
    std::vector<BuildingIndex> lost;
    for (std::size_t b = 0; b < hub; ++b) {
        if (!reached[b]) lost.push_back(static_cast<BuildingIndex>(b));
    }
    return lost;
}

}  // namespace spadework
