#include <fmt/format.h>

#include "drawing/bar_chart.hpp"
#include "drawing/drawing.hpp"
#include "drawing/figures.hpp"

namespace spadework::drawing {

std::string strand_curve_svg(const Scenario& scenario, const StrandStudy& study, const Frame& frame) {
    BarChart chart;
    chart.id = "sizes";
    chart.title = fmt::format("Price of each cable size ({} a {})", scenario.currency.code, length_unit(scenario));
    chart.axis_text = chart.title;
    chart.tick = [&](double value, double step) { return money_tick_text(value, step, scenario.currency); };
    chart.when_empty = "No cable is on offer.";
    for (std::size_t i = 0; i < study.sizes.size(); ++i) {
        const CableSizeOption& size = study.sizes[i];
        Bar bar;
        bar.best = static_cast<int>(i) == study.recommended;
        bar.label =
            fmt::format("{} strands", scenario.catalogue.cables[static_cast<std::size_t>(size.product)].strands);
        bar.figure = price_figure(size.price_per_metre, scenario.currency);
        bar.pieces.push_back({static_cast<double>(size.price_per_metre.thousandths()) / 1000.0, {}, bar.figure});
        chart.bars.push_back(bar);
    }
    return bar_chart_svg(chart, {"strand-curve", "Cable sizes on offer", chart.title}, frame);
}

}  // namespace spadework::drawing
