#include <fmt/format.h>

#include "drawing/bar_chart.hpp"
#include "drawing/drawing.hpp"
#include "drawing/figures.hpp"
#include "drawing/ground_look.hpp"

namespace spadework::drawing {

namespace {

Length metres_of(const LayoutResult& layout, const std::string& ground) {
    const auto found = layout.trench_by_ground.find(ground);
    return found == layout.trench_by_ground.end() ? Length() : found->second;
}

bool occurs(const Comparison& comparison, const std::string& ground) {
    for (const LayoutResult& layout : comparison.layouts) {
        if (layout.feasible() && metres_of(layout, ground) > Length()) return true;
    }
    return false;
}

class GroundBars {
public:
    GroundBars(const Scenario& scenario, const Comparison& comparison)
        : scenario_(scenario),
          comparison_(comparison),
          looks_(ground_looks(scenario)),
          reused_{existing_duct_look(), pole_line_look()} {}

    [[nodiscard]] BarChart chart() const {
        BarChart chart;
        chart.id = "layouts";
        chart.title = fmt::format("Trench by ground ({})", length_unit(scenario_));
        chart.axis_text =
            fmt::format("Length dug in {}{}", length_unit(scenario_),
                        any_reused() ? "; existing ducts and pole lines stand apart, behind the gap" : "");
        chart.tick = tick_text;
        chart.when_empty = "No layout was compared.";
        for (std::size_t i = 0; i < comparison_.layouts.size(); ++i)
            chart.bars.push_back(bar_of(i));
        for (const auto* looks : {&looks_, &reused_}) {
            for (const GroundLook& look : *looks) {
                if (occurs(comparison_, look.id)) chart.legend.push_back({look.fill, look.name});
            }
        }
        return chart;
    }

    [[nodiscard]] std::string description() const {
        std::string text = "One bar for each layout: the length of trench dug in each ground.";
        for (const LayoutResult& layout : comparison_.layouts) {
            if (!layout.feasible()) {
                text += fmt::format(" {}: not feasible.", name_of(layout.layout));
                continue;
            }
            text += fmt::format(" {}: {} dug", name_of(layout.layout), length_in_words(layout.trench, scenario_));
            for (const auto* looks : {&looks_, &reused_}) {
                for (const GroundLook& look : *looks)
                    text += part_in_words(layout, look);
            }
            text += ".";
        }
        return text;
    }

private:
    [[nodiscard]] bool any_reused() const {
        return occurs(comparison_, existing_duct_id) || occurs(comparison_, pole_line_id);
    }

    [[nodiscard]] std::string part_in_words(const LayoutResult& layout, const GroundLook& look) const {
        const Length length = metres_of(layout, look.id);
        if (length == Length()) return "";
        return fmt::format("; {} {}", drawn_in_sentence(look.name), length_in_words(length, scenario_));
    }

    [[nodiscard]] std::vector<BarPiece> pieces_of(const LayoutResult& layout,
                                                  const std::vector<GroundLook>& looks) const {
        std::vector<BarPiece> pieces;
        for (const GroundLook& look : looks) {
            const Length length = metres_of(layout, look.id);
            if (length > Length())
                pieces.push_back({in_length_unit(length, scenario_), look.fill,
                                  fmt::format("{}: {}", look.name, length_in_words(length, scenario_))});
        }
        return pieces;
    }

    [[nodiscard]] Bar bar_of(std::size_t index) const {
        const LayoutResult& layout = comparison_.layouts[index];
        Bar bar;
        bar.label = name_of(layout.layout);
        bar.best = comparison_.cheapest && *comparison_.cheapest == static_cast<int>(index);
        if (!layout.feasible()) {
            bar.instead = "Not feasible.";
            return bar;
        }
        if (bar.best) bar.label += " (cheapest)";
        bar.figure = length_figure(layout.trench, scenario_);
        if (layout.reused > Length()) bar.figure += fmt::format(" + {}", length_figure(layout.reused, scenario_));
        bar.pieces = pieces_of(layout, looks_);
        bar.apart = pieces_of(layout, reused_);
        return bar;
    }

    const Scenario& scenario_;
    const Comparison& comparison_;
    std::vector<GroundLook> looks_;
    std::vector<GroundLook> reused_;
};

}  // namespace

std::string ground_bars_svg(const Scenario& scenario, const Comparison& comparison, const Frame& frame) {
    const GroundBars bars(scenario, comparison);
    const std::string title = fmt::format("Trench by ground: {}", drawn_in_sentence(scenario.name));
    return bar_chart_svg(bars.chart(), {"ground-bars", title, bars.description()}, frame);
}

}  // namespace spadework::drawing
