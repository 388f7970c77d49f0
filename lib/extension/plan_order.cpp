#include "extension/plan_order.hpp"

#include <algorithm>
#include <numeric>
#include <utility>
#include <vector>

namespace spadework {

namespace {

/// Sorts a list, moves a list of indices into it along, and tells where each element went.
template <class Item, class Before>
std::vector<int> order_list(std::vector<Item>& items, std::vector<int>& indices, Before before) {
    std::vector<int> order(items.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
        return before(items[static_cast<std::size_t>(a)], items[static_cast<std::size_t>(b)]);
    });
    std::vector<Item> sorted;
    std::vector<int> moved_to(items.size());
    for (const int from : order) {
        moved_to[static_cast<std::size_t>(from)] = static_cast<int>(sorted.size());
        sorted.push_back(std::move(items[static_cast<std::size_t>(from)]));
    }
    items = std::move(sorted);
    for (int& index : indices)
        index = moved_to[static_cast<std::size_t>(index)];
    std::sort(indices.begin(), indices.end());
    return moved_to;
}

void order_enclosures(ExtendedPlan& extended) {
    const auto moved =
        order_list(extended.plan.enclosures, extended.enclosures,
                   [](const PlannedEnclosure& a, const PlannedEnclosure& b) { return a.place < b.place; });
    for (PlannedCable& cable : extended.plan.cables) {
        if (cable.enclosure) cable.enclosure = moved[static_cast<std::size_t>(*cable.enclosure)];
    }
    for (AddedBoxes& boxes : extended.boxes)
        boxes.enclosure = moved[static_cast<std::size_t>(boxes.enclosure)];
}

void order_cables(ExtendedPlan& extended) {
    const auto moved =
        order_list(extended.plan.cables, extended.cables, [](const PlannedCable& a, const PlannedCable& b) {
            return (a.role != CableRole::trunk) < (b.role != CableRole::trunk);
        });
    for (PlannedEnclosure& enclosure : extended.plan.enclosures) {
        for (int& trunk : enclosure.trunks)
            trunk = moved[static_cast<std::size_t>(trunk)];
    }
    for (PlannedLink& link : extended.plan.links) {
        for (int& cable : link.cables)
            cable = moved[static_cast<std::size_t>(cable)];
    }
    for (PlannedCable& cable : extended.plan.cables) {
        if (cable.spliced_to) cable.spliced_to = moved[static_cast<std::size_t>(*cable.spliced_to)];
    }
    for (LitStrands& lit : extended.lit)
        lit.cable = moved[static_cast<std::size_t>(lit.cable)];
    if (extended.cut) extended.cut = moved[static_cast<std::size_t>(*extended.cut)];
}

}  // namespace

void put_in_order(ExtendedPlan& extended) {
    order_enclosures(extended);
    order_cables(extended);
    const auto moved = order_list(extended.plan.links, extended.links, [](const PlannedLink& a, const PlannedLink& b) {
        return std::pair(a.building, a.number) < std::pair(b.building, b.number);
    });
    for (int& link : extended.interrupted)
        link = moved[static_cast<std::size_t>(link)];
    std::sort(extended.interrupted.begin(), extended.interrupted.end());
    const auto moved_gear =
        order_list(extended.plan.building_gear, extended.gear,
                   [](const PlannedGear& a, const PlannedGear& b) { return a.building < b.building; });
    for (int& gear : extended.swapped)
        gear = moved_gear[static_cast<std::size_t>(gear)];
}

}  // namespace spadework
