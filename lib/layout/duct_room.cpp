#include "layout/duct_room.hpp"

#include <map>
#include <optional>

#include <fmt/format.h>

#include "rates/opening_rates.hpp"

namespace spadework {

namespace {

/// Ways looked up once a segment.
class WayBook {
public:
    explicit WayBook(const Scenario& scenario) : scenario_(&scenario) {}

    const std::vector<Way>& of(SegmentIndex segment) {
        const auto [entry, fresh] = ways_.try_emplace(segment);
        if (fresh) entry->second = ways_of(*scenario_, segment);
        return entry->second;
    }

private:
    const Scenario* scenario_;
    std::map<SegmentIndex, std::vector<Way>> ways_;
};

std::map<Step, int> count_uses(const std::vector<PlannedCable>& cables) {
    std::map<Step, int> uses;
    for (const PlannedCable& cable : cables) {
        for (const Step& step : cable.steps)
            ++uses[step];
    }
    return uses;
}

Money passage(const Scenario& scenario, const Way& way, SegmentIndex segment) {
    return amount(passage_per_metre(*way.method, scenario.labour),
                  scenario.segments[static_cast<std::size_t>(segment)].length);
}

/// The way with unlimited room that is cheapest for one more cable; nothing when the segment has none.
std::optional<int> cheapest_roomy_way(const Scenario& scenario, const std::vector<Way>& ways, SegmentIndex segment,
                                      const std::map<Step, int>& uses) {
    std::optional<int> best;
    Money best_cost;
    for (int w = 0; w < static_cast<int>(ways.size()); ++w) {
        const Way& way = ways[static_cast<std::size_t>(w)];
        if (way.room >= 0) continue;
        const auto open = uses.find({segment, w});
        const bool is_open = open != uses.end() && open->second > 0;
        const Money cost = (is_open ? Money() : way.opening) + passage(scenario, way, segment);
        if (!best || cost < best_cost) {
            best = w;
            best_cost = cost;
        }
    }
    return best;
}

}  // namespace

WithheldWays ways_over_room(const Scenario& scenario, const std::vector<const std::vector<Step>*>& routes) {
    std::map<Step, int> uses;
    for (const std::vector<Step>* route : routes) {
        for (const Step& step : *route)
            ++uses[step];
    }
    WayBook book(scenario);
    WithheldWays over;
    for (const auto& [step, count] : uses) {
        const int room = book.of(step.segment)[static_cast<std::size_t>(step.way)].room;
        if (room >= 0 && count > room) over.insert({step.segment, step.way});
    }
    return over;
}

std::vector<std::string> respect_duct_room(const Scenario& scenario, std::vector<PlannedCable>& cables) {
    WayBook book(scenario);
    std::map<Step, int> uses = count_uses(cables);
    std::map<Step, int> kept;
    std::map<SegmentIndex, int> moved;
    for (PlannedCable& cable : cables) {
        for (Step& step : cable.steps) {
            const std::vector<Way>& ways = book.of(step.segment);
            const int room = ways[static_cast<std::size_t>(step.way)].room;
            if (room < 0 || ++kept[step] <= room) continue;
            const auto other = cheapest_roomy_way(scenario, ways, step.segment, uses);
            if (!other) continue;
            --uses[step];
            step.way = *other;
            ++uses[step];
            ++moved[step.segment];
        }
    }
    std::vector<std::string> notes;
    for (const auto& [segment, count] : moved) {
        const Segment& full = scenario.segments[static_cast<std::size_t>(segment)];
        notes.push_back(
            fmt::format("the existing duct in segment {} has room for {} cables; {} more are laid beside it", full.id,
                        *full.duct_room, count));
    }
    return notes;
}

}  // namespace spadework
