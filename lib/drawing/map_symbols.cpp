#include "drawing/map_symbols.hpp"

#include "drawing/base_map.hpp"

namespace spadework::drawing {

namespace {

void write_square(SvgWriter& svg, const Point& at, double half, const Attributes& look, std::string_view title) {
    Attributes attributes = {{"x", at.x - half}, {"y", at.y - half}, {"width", 2 * half}, {"height", 2 * half}};
    attributes.insert(attributes.end(), look.begin(), look.end());
    svg.titled("rect", attributes, title);
}

}  // namespace

void write_hub(SvgWriter& svg, const Point& at, double half, std::string_view title) {
    write_square(svg, at, half, {{"fill", colour::ink}, {"stroke", colour::paper}, {"stroke-width", 1}}, title);
    const double arm = half * 0.5;
    svg.leaf("path", {{"d", path_of({{{at.x - arm, at.y - arm}, {at.x - arm, at.y + arm}},
                                     {{at.x + arm, at.y - arm}, {at.x + arm, at.y + arm}},
                                     {{at.x - arm, at.y}, {at.x + arm, at.y}}})},
                      {"fill", "none"},
                      {"stroke", colour::paper},
                      {"stroke-width", half / 4}});
}

void write_building(SvgWriter& svg, const Point& at, double half, std::string_view title) {
    write_square(svg, at, half - 0.7, {{"fill", colour::paper}, {"stroke", colour::ink}, {"stroke-width", 1.4}}, title);
}

void write_future_building(SvgWriter& svg, const Point& at, double half, std::string_view title) {
    write_square(
        svg, at, half - 0.7,
        {{"fill", colour::paper}, {"stroke", colour::quiet}, {"stroke-width", 1.2}, {"stroke-dasharray", "2 2"}},
        title);
}

void write_enclosure(SvgWriter& svg, const Point& at, double half, std::string_view title) {
    const std::string path =
        path_of(std::vector<Point>{{at.x, at.y - half}, {at.x + half, at.y}, {at.x, at.y + half}, {at.x - half, at.y}});
    svg.titled("path", {{"d", path + " Z"}, {"fill", colour::accent}, {"stroke", colour::ink}, {"stroke-width", 1.4}},
               title);
}

void write_handhole(SvgWriter& svg, const Point& at, double half, std::string_view title) {
    svg.titled("circle",
               {{"cx", at.x},
                {"cy", at.y},
                {"r", half},
                {"fill", colour::paper},
                {"stroke", colour::ink},
                {"stroke-width", 1}},
               title);
}

Rectangle around(const Point& at, double half) {
    return {at.x - half, at.y - half, at.x + half, at.y + half};
}

}  // namespace spadework::drawing
