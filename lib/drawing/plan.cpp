#include <fmt/format.h>

#include "comparison/money_words.hpp"
#include "drawing/base_map.hpp"
#include "drawing/drawing.hpp"
#include "drawing/ground_look.hpp"
#include "rates/opening_rates.hpp"

namespace spadework::drawing {

std::string plan_svg(const Scenario& scenario, const LayoutResult& result, const Frame& frame) {
    const Ids ids(frame, "plan");
    std::vector<Position> shown = {scenario.places[static_cast<std::size_t>(scenario.hub.place)].at};
    std::vector<bool> used(scenario.segments.size(), false);
    for (const Building& building : scenario.buildings)
        shown.push_back(scenario.places[static_cast<std::size_t>(building.place)].at);
    MapFrame map(scenario, shown, usable_width(frame) - 32, 40);
    map.move_to(16, 48);
    SvgWriter svg(1);
    const std::string title = fmt::format("{}: {}", drawn_in_sentence(scenario.name), name_of(result.layout));
    write_text(svg, 16, 32, title, {{title_size, true}});
    write_areas(svg, ids, scenario, map);
    const auto looks = ground_looks(scenario);
    SvgWriter trenches(1);
    if (result.plan) {
        for (const Step& step : result.plan->trenches) {
            used[static_cast<std::size_t>(step.segment)] = true;
            const Way way = ways_of(scenario, step.segment)[static_cast<std::size_t>(step.way)];
            trenches.leaf(
                "path", {{"d", path_of(map.points(scenario.segments[static_cast<std::size_t>(step.segment)].polyline))},
                         {"fill", "none"},
                         {"stroke", colour_of(look_of(looks, way.ground).fill)},
                         {"stroke-width", 4}});
        }
    }
    write_unused(svg, ids, scenario, map, used);
    svg.add(trenches);
    for (const Building& building : scenario.buildings) {
        const Point at = map.point(scenario.places[static_cast<std::size_t>(building.place)].at);
        svg.leaf("rect", {{"x", at.x - 4}, {"y", at.y - 4}, {"width", 8}, {"height", 8}, {"fill", colour::ink}});
    }
    return picture(frame, {"plan", title, title}, map.rectangle().bottom + 16, svg);
}

}  // namespace spadework::drawing
