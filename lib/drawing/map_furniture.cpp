#include "drawing/map_furniture.hpp"

#include <cmath>

#include <fmt/format.h>

#include "comparison/money_words.hpp"
#include "drawing/axis.hpp"
#include "drawing/base_map.hpp"
#include "drawing/figures.hpp"

namespace spadework::drawing {

namespace {

constexpr double inset = 14;

void write_scale_bar(SvgWriter& svg, const Ids& ids, const Scenario& scenario, const MapFrame& frame) {
    const double units = frame.units_per_metre() * (scenario.feet ? 0.3048 : 1.0);
    const double room = std::min(240.0, frame.rectangle().width() * 0.45);
    const double length = round_below(room / units);
    const double left = frame.rectangle().left + inset;
    const double top = frame.rectangle().bottom + 24;
    svg.open("g", {{"id", ids.id("scale")}});
    svg.text("title", {}, "Scale bar");
    constexpr int parts = 4;
    const double part = length * units / parts;
    for (int i = 0; i < parts; ++i) {
        svg.leaf("rect", {{"x", left + i * part},
                          {"y", top},
                          {"width", part},
                          {"height", 7},
                          {"fill", i % 2 == 0 ? colour::ink : colour::paper},
                          {"stroke", colour::ink},
                          {"stroke-width", 1}});
    }
    const TextStyle centred{{small_size}, colour::ink, Anchor::middle};
    write_text(svg, left, top - 6, "0", {{small_size}});
    if (part > 40) write_text(svg, left + 2 * part, top - 6, tick_text(length / 2, length / 2), centred);
    write_text(svg, left + 4 * part, top - 6, fmt::format("{} {}", tick_text(length, length), length_unit(scenario)),
               centred);
    svg.close();
}

void write_north_arrow(SvgWriter& svg, const Ids& ids, const MapFrame& frame) {
    const double x = frame.rectangle().right - inset - 8;
    const double top = frame.rectangle().bottom + 6;
    svg.open("g", {{"id", ids.id("north")}});
    svg.text("title", {}, "North is up");
    svg.leaf("path",
             {{"d", path_of(std::vector<Point>{{x, top}, {x + 8, top + 30}, {x, top + 24}, {x - 8, top + 30}}) + " Z"},
              {"fill", colour::paper},
              {"stroke", colour::ink},
              {"stroke-width", 1}});
    svg.leaf("path", {{"d", path_of(std::vector<Point>{{x, top}, {x, top + 24}, {x - 8, top + 30}}) + " Z"},
                      {"fill", colour::ink}});
    write_text(svg, x - 14, top + 20, "N", {{text_size, true}, colour::ink, Anchor::end});
    svg.close();
}

}  // namespace

void write_furniture(SvgWriter& svg, const Ids& ids, const Scenario& scenario, const MapFrame& frame) {
    const Rectangle& map = frame.rectangle();
    write_line(svg, map.left, map.bottom, map.right, map.bottom, colour::rule, 1);
    write_scale_bar(svg, ids, scenario, frame);
    write_north_arrow(svg, ids, frame);
}

void write_border(SvgWriter& svg, const MapFrame& frame) {
    const Rectangle& map = frame.rectangle();
    svg.leaf("rect", {{"x", map.left},
                      {"y", map.top},
                      {"width", map.width()},
                      {"height", map.height() + furniture_height},
                      {"fill", "none"},
                      {"stroke", colour::rule},
                      {"stroke-width", 1}});
}

std::string scale_in_words(const MapFrame& frame) {
    constexpr double metres_per_unit = 0.0254 / 96;
    const double ratio = 1 / (frame.units_per_metre() * metres_per_unit);
    const double digits = std::pow(10.0, std::max(0.0, std::floor(std::log10(ratio)) - 2));
    return fmt::format("1 : {}", grouped(fmt::format("{:.0f}", std::round(ratio / digits) * digits)));
}

}  // namespace spadework::drawing
