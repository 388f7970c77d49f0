#include "scenario/ordering.hpp"

#include <algorithm>
#include <numeric>
#include <tuple>

namespace spadework {

namespace {

/// Sorts by id; where each old number went.
template <typename Item>
std::vector<int> sort_by_id(std::vector<Item>& items) {
    std::vector<std::size_t> order(items.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&items](std::size_t a, std::size_t b) { return items[a].id < items[b].id; });
    std::vector<Item> sorted;
    sorted.reserve(items.size());
    std::vector<int> moved_to(items.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        sorted.push_back(std::move(items[order[i]]));
        moved_to[order[i]] = static_cast<int>(i);
    }
    items = std::move(sorted);
    return moved_to;
}

}  // namespace

void put_in_order(Scenario& scenario) {
    const std::vector<int> place = sort_by_id(scenario.places);
    const std::vector<int> ground = sort_by_id(scenario.grounds);
    const auto move_to = [](int& index, const std::vector<int>& moved_to) {
        index = moved_to[static_cast<std::size_t>(index)];
    };
    const std::vector<int> area = sort_by_id(scenario.areas);
    for (Segment& segment : scenario.segments) {
        if (segment.area) move_to(*segment.area, area);
        move_to(segment.from, place);
        move_to(segment.to, place);
        move_to(segment.ground, ground);
    }
    for (Area& listed : scenario.areas) {
        if (listed.ground) move_to(*listed.ground, ground);
    }
    move_to(scenario.hub.place, place);
    for (Building& building : scenario.buildings)
        move_to(building.place, place);
    for (FutureBuilding& building : scenario.growth.buildings) {
        if (building.place) move_to(*building.place, place);
    }
    sort_by_id(scenario.segments);
    sort_by_id(scenario.buildings);
    auto& catalogue = scenario.catalogue;
    std::stable_sort(catalogue.cables.begin(), catalogue.cables.end(), [](const auto& a, const auto& b) {
        return std::tie(a.strands, a.id) < std::tie(b.strands, b.id);
    });
    std::stable_sort(catalogue.enclosures.begin(), catalogue.enclosures.end(), [](const auto& a, const auto& b) {
        return std::tie(a.adapters, a.id) < std::tie(b.adapters, b.id);
    });
}

}  // namespace spadework
