#include "drawing/plan_look.hpp"

namespace spadework::drawing {

namespace {

constexpr const char* reused_colour = "#4a5a6a";

Attributes line(const std::string& path, const char* stroke, double width) {
    return {{"d", path}, {"fill", "none"}, {"stroke", stroke}, {"stroke-width", width}};
}

}  // namespace

void write_ground_line(SvgWriter& svg, const std::string& path, const GroundLook& look, std::string_view title) {
    if (look.id == existing_duct_id) {
        svg.titled("path", line(path, reused_colour, 5), title);
        svg.leaf("path", line(path, colour::paper, 2.6));
        return;
    }
    if (look.id == pole_line_id) {
        svg.titled("path", line(path, reused_colour, 1), title);
        Attributes dots = line(path, reused_colour, 5);
        dots.emplace_back("stroke-linecap", "round");
        dots.emplace_back("stroke-dasharray", look.dashes);
        svg.leaf("path", dots);
        return;
    }
    // A broken line lies on an unbroken thin one, so that a trench has no gaps.
    if (!look.dashes.empty()) svg.leaf("path", line(path, colour_of(look.fill), 1.2));
    Attributes attributes = line(path, colour_of(look.fill), 5);
    if (!look.dashes.empty()) attributes.emplace_back("stroke-dasharray", look.dashes);
    svg.titled("path", attributes, title);
}

void write_cable_line(SvgWriter& svg, const std::string& path, const RoleLook& look, std::string_view title,
                      double thickness) {
    Attributes attributes = line(path, colour::ink, look.width * thickness);
    attributes.emplace_back("stroke-linejoin", "round");
    if (*look.dashes != '\0') attributes.emplace_back("stroke-dasharray", look.dashes);
    svg.titled("path", attributes, title);
}

}  // namespace spadework::drawing
