#include "drawing/ground_look.hpp"

#include <algorithm>
#include <array>
#include <set>

#include "drawing/drawn_text.hpp"

namespace spadework::drawing {

namespace {

constexpr std::array<const char*, 8> dashes = {"", "11 3", "3 3", "14 3 3 3", "6 6", "14 3 3 3 3 3", "2 6", "20 6"};

}  // namespace

std::vector<GroundLook> ground_looks(const Scenario& scenario) {
    std::set<int> occurring;
    for (const Segment& segment : scenario.segments)
        occurring.insert(segment.ground);
    std::vector<GroundLook> looks;
    for (const int index : occurring) {
        if (index < 0 || index >= static_cast<int>(scenario.grounds.size())) continue;
        const Ground& ground = scenario.grounds[static_cast<std::size_t>(index)];
        const int n = static_cast<int>(looks.size());
        const auto dash = static_cast<std::size_t>((n + n / palette_size) % static_cast<int>(dashes.size()));
        looks.push_back(
            {ground.id, drawn(ground.name.empty() ? ground.id : ground.name, 60), nth_fill(n), dashes[dash]});
    }
    return looks;
}

GroundLook existing_duct_look() {
    return {existing_duct_id, "Existing duct", {5, 0}, ""};
}

GroundLook pole_line_look() {
    return {pole_line_id, "Pole line", {5, 5}, "0 9"};
}

GroundLook look_of(const std::vector<GroundLook>& looks, const std::string& ground_id) {
    if (ground_id == existing_duct_id) return existing_duct_look();
    if (ground_id == pole_line_id) return pole_line_look();
    const auto found =
        std::find_if(looks.begin(), looks.end(), [&](const GroundLook& look) { return look.id == ground_id; });
    return found == looks.end() ? GroundLook{ground_id, drawn(ground_id, 60), {}, ""} : *found;
}

}  // namespace spadework::drawing
