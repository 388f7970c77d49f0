#include "world/support/own_paths.hpp"

#include <functional>
#include <set>

namespace spadework::own {

OwnPaths::OwnPaths(const Scenario& site, const Plan& built) : site_(site) {
    for (int s = 0; s < static_cast<int>(site_.segments.size()); ++s) {
        const auto choices = ways(site_, s);
        for (int w = 0; w < static_cast<int>(choices.size()); ++w)
            ways_[{s, w}] = {choices[static_cast<std::size_t>(w)], 0};
    }
    std::set<Passed> in_use;
    for (const PlannedCable& cable : built.cables) {
        for (const Step& step : cable.steps) {
            OwnWay& way = ways_.at({step.segment, step.way}).first;
            if (way.room >= 0) way.room -= 1;
            in_use.insert({step.segment, step.way});
        }
    }
    for (const Passed& step : in_use) {
        OwnWay& way = ways_.at(step).first;
        const bool dug = way.method->kind != MethodKind::existing_duct && way.method->kind != MethodKind::pole_line;
        if (!dug) way.opening = 0;
    }
}

std::vector<Path> OwnPaths::between(PlaceIndex from, PlaceIndex to) const {
    std::vector<Path> found;
    std::vector<bool> visited(site_.places.size(), false);
    const std::function<void(PlaceIndex, const Path&)> walk = [&](PlaceIndex at, const Path& path) {
        if (at == to) {
            found.push_back(path);
            return;
        }
        visited[static_cast<std::size_t>(at)] = true;
        for (const auto& [step, way] : ways_) {
            const Segment& segment = site_.segments[static_cast<std::size_t>(step.first)];
            if ((segment.from != at && segment.to != at) || way.first.room == 0) continue;
            const PlaceIndex next = segment.from == at ? segment.to : segment.from;
            if (visited[static_cast<std::size_t>(next)]) continue;
            Path longer = path;
            longer.steps.push_back(step);
            longer.run.add(segment, *way.first.method);
            const bool handhole = site_.places[static_cast<std::size_t>(next)].kind == PlaceKind::handhole;
            longer.run.handholes += handhole && next != to ? 1 : 0;
            walk(next, longer);
        }
        visited[static_cast<std::size_t>(at)] = false;
    };
    walk(from, {});
    return found;
}

bool OwnPaths::lay(const Path& path) {
    bool fits = true;
    for (const Passed& step : path.steps) {
        auto& [way, cables] = ways_.at(step);
        if (++cables == 1) paid_ += way.opening;
        fits = fits && (way.room < 0 || cables <= way.room);
    }
    return fits;
}

void OwnPaths::take_out(const Path& path) {
    for (const Passed& step : path.steps) {
        auto& [way, cables] = ways_.at(step);
        if (--cables == 0) paid_ -= way.opening;
    }
}

}  // namespace spadework::own
