#include "drawing/fill.hpp"

#include <array>

#include <fmt/format.h>

namespace spadework::drawing {

namespace {

/// Dark and light in turn, so that neighbours differ in lightness as well; chosen to stay apart for red-green and
/// blue-yellow colour blindness.
constexpr std::array<const char*, palette_size> palette = {"#1f5a89", "#f0b43c", "#7b4173", "#7fc4b8",
                                                           "#8c4a1c", "#b9c6d3", "#3f6b3a", "#e79a8e"};

/// Colour of hatch lines on each palette colour: white on dark, dark on light.
constexpr std::array<const char*, palette_size> hatch_ink = {"#ffffff", "#5a3d00", "#ffffff", "#123f38",
                                                             "#ffffff", "#2f3f4f", "#ffffff", "#5a1d14"};

/// Lines of each hatch in a tile of 8 by 8; the first hatch is plain.
constexpr std::array<const char*, hatch_count> hatch_path = {
    "",        "M-2 2 L2 -2 M0 8 L8 0 M6 10 L10 6",         "M0 4 H8",         "M-2 6 L2 10 M0 0 L8 8 M6 -2 L10 2",
    "M4 0 V8", "M3 4 H5 M7 0 H9 M-1 0 H1 M7 8 H9 M-1 8 H1", "M0 4 H8 M4 0 V8", "M0 0 L8 8 M8 0 L0 8"};

}  // namespace

Fill nth_fill(int n) {
    return {n % palette_size, (n % palette_size + n / palette_size) % hatch_count};
}

const char* colour_of(const Fill& fill) {
    return palette[static_cast<std::size_t>(fill.colour % palette_size)];
}

std::string Fills::name_of(const Fill& fill) {
    return fmt::format("fill-{}-{}", fill.colour % palette_size, fill.hatch % hatch_count);
}

std::string Fills::use(const Fill& fill) {
    if (fill.hatch % hatch_count == 0) return colour_of(fill);
    used_.insert({fill.colour % palette_size, fill.hatch % hatch_count});
    return ids_.url(name_of(fill));
}

SvgWriter Fills::definitions() const {
    SvgWriter svg(1);
    if (used_.empty()) return svg;
    svg.open("defs", {});
    for (const Fill& fill : used_) {
        svg.open("pattern",
                 {{"id", ids_.id(name_of(fill))}, {"width", 8}, {"height", 8}, {"patternUnits", "userSpaceOnUse"}});
        svg.leaf("rect", {{"width", 8}, {"height", 8}, {"fill", colour_of(fill)}});
        svg.leaf("path", {{"d", hatch_path[static_cast<std::size_t>(fill.hatch)]},
                          {"fill", "none"},
                          {"stroke", hatch_ink[static_cast<std::size_t>(fill.colour)]},
                          {"stroke-width", fill.hatch == 5 ? 2.0 : 1.2}});
        svg.close();
    }
    svg.close();
    return svg;
}

}  // namespace spadework::drawing
