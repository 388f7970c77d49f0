#include "scenario/lookup.hpp"

#include <algorithm>

namespace spadework {

namespace {

template <typename Item>
std::optional<std::int32_t> find_sorted(const std::vector<Item>& items, std::string_view id) {
    const auto found = std::lower_bound(items.begin(), items.end(), id,
                                        [](const Item& item, std::string_view wanted) { return item.id < wanted; });
    if (found == items.end() || found->id != id) return std::nullopt;
    return static_cast<std::int32_t>(found - items.begin());
}

}  // namespace

std::optional<PlaceIndex> find_place(const Scenario& scenario, std::string_view id) {
    return find_sorted(scenario.places, id);
}

std::optional<SegmentIndex> find_segment(const Scenario& scenario, std::string_view id) {
    return find_sorted(scenario.segments, id);
}

std::optional<BuildingIndex> find_building(const Scenario& scenario, std::string_view id) {
    return find_sorted(scenario.buildings, id);
}

std::optional<int> find_ground(const Scenario& scenario, std::string_view id) {
    return find_sorted(scenario.grounds, id);
}

}  // namespace spadework
