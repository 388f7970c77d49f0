#include "catalogue/fibre_colour.hpp"

#include <algorithm>
#include <cstddef>

namespace spadework {

namespace {

/// Colour number `index` (from 0) with a tracer for every full round of the order. Black carries yellow tracers.
std::string colour_at(int index, const ColourOrder& order) {
    const int colours = static_cast<int>(order.colours.size());
    if (colours == 0) return "";
    const std::string& base = order.colours[static_cast<std::size_t>(index % colours)];
    const int tracers = index / colours;
    if (tracers == 0) return base;
    const std::string tracer = base == "black" ? "yellow" : "black";
    if (tracers == 1) return base + " with " + tracer + " tracer";
    return base + " with " + std::to_string(tracers) + " " + tracer + " tracers";
}

}  // namespace

// ANSI/TIA-598-C, fibre colour chart.
const ColourOrder& tia_598_order() {
    static const ColourOrder order = {
        "TIA-598",
        {"blue", "orange", "green", "brown", "slate", "white", "red", "black", "yellow", "violet", "rose", "aqua"}};
    return order;
}

// DIN VDE 0888-3, value from memory.
const ColourOrder& din_vde_0888_order() {
    static const ColourOrder order = {
        "DIN VDE 0888",
        {"red", "green", "blue", "yellow", "white", "grey", "brown", "violet", "turquoise", "black", "orange", "pink"}};
    return order;
}

StrandColour strand_colour(int number, int strands_per_tube, const ColourOrder& order) {
    const int index = std::max(number, 1) - 1;
    const int per_tube = std::max(strands_per_tube, 1);
    return {colour_at(index / per_tube, order), colour_at(index % per_tube, order)};
}

}  // namespace spadework
