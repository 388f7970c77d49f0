#include <cmath>

#include <fmt/format.h>

#include "comparison/money_words.hpp"
#include "drawing/base_map.hpp"
#include "drawing/drawing.hpp"

namespace spadework::drawing {

std::string enclosure_map_svg(const Scenario& scenario, const EnclosureStudy& study, const Frame& frame) {
    const Ids ids(frame, "enclosure-map");
    std::vector<Position> shown = {scenario.places[static_cast<std::size_t>(scenario.hub.place)].at};
    for (const PlaceRank& rank : study.ranking)
        shown.push_back(scenario.places[static_cast<std::size_t>(rank.place)].at);
    MapFrame map(scenario, shown, usable_width(frame) - 32, 40);
    map.move_to(16, 48);
    SvgWriter svg(1);
    const std::string title = fmt::format("{}: extra cost by place of the enclosure", drawn_in_sentence(scenario.name));
    write_text(svg, 16, 32, title, {{title_size, true}});
    write_unused(svg, ids, scenario, map, std::vector<bool>(scenario.segments.size(), false));
    for (const PlaceRank& rank : study.ranking) {
        if (!rank.result.feasible()) continue;
        const Point at = map.point(scenario.places[static_cast<std::size_t>(rank.place)].at);
        svg.titled("circle", {{"cx", at.x}, {"cy", at.y}, {"r", 6}, {"fill", colour::accent}},
                   money_in_words(rank.over_best, scenario.currency));
    }
    return picture(frame, {"enclosure-map", title, title}, map.rectangle().bottom + 16, svg);
}

}  // namespace spadework::drawing
