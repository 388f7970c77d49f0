#include "drawing/doubt_charts.hpp"

#include <algorithm>

#include "drawing/support/picture_checks.hpp"
#include "support/small_site.hpp"

using namespace spadework;
using namespace spadework::testing;

namespace {

/// Home runs cost 100.00 to 199.00, a daisy chain twice that; a ring cannot be built.
RiskSample sample() {
    RiskSample sample;
    sample.head.site = hostile_name;
    for (const LayoutKind kind : {LayoutKind::home_runs, LayoutKind::daisy_chain, LayoutKind::ring}) {
        SampledLayout layout;
        layout.layout = kind;
        sample.head.layouts.push_back(layout);
    }
    for (std::int64_t draw = 0; draw < 100; ++draw) {
        const std::int64_t total = 10'000 + 100 * draw;
        for (const std::int64_t each : {total, 2 * total, no_plan})
            sample.totals.push_back({each, each});
    }
    return sample;
}

Sweep along_one(int points) {
    Sweep sweep;
    sweep.inputs = {{"labour.groundworks-rate", 10, 90, points, "EUR an hour", false}};
    sweep.layouts = {LayoutKind::home_runs, LayoutKind::trunk_one};
    for (int i = 0; i < points; ++i) {
        const std::int64_t rising = 100'000 + 1'000 * i;
        SweptPoint point{sweep.inputs[0].at(i), 0, false, {{rising, rising - 5'000}, {105'000, 100'000}}, {}, i != 5};
        point.winner = rising <= 105'000 ? 0 : 1;
        sweep.points.push_back(point);
    }
    sweep.changes = {{40, 42, 0, 1, 30.0, 55.0}, {70, 72, 1, 0, {}, {}}};
    return sweep;
}

}  // namespace

TEST_CASE("curves rise from 0 to all draws, in proportion to the totals") {
    for (const double width : {350.0, 960.0}) {
        const SvgElement svg = checked_picture(drawing::risk_curves_svg(sample(), {width, "p-", false}), "p-");
        CHECK(has_text(svg, "Total (EUR)"));
        CHECK(has_text(svg, "Daisy chain"));
        CHECK_FALSE(has_text(svg, "Ring"));
        CHECK(svg.find("p-risk-curves-lines")->all("path").size() == 2);
        CHECK_FALSE(has_text(svg, "-0"));
        CHECK(has_text(svg, "Home runs: half of the draws within EUR 149.50, nine of ten within 189.10.", "desc"));
    }
}

TEST_CASE("draws without any plan, and a total that never varies, are pictures too") {
    RiskSample none = sample();
    for (DrawnTotals& totals : none.totals)
        totals = {};
    CHECK(has_text(checked_picture(drawing::risk_curves_svg(none, {})), "No layout can be built."));
    RiskSample flat = sample();
    for (DrawnTotals& totals : flat.totals)
        totals = {500, 500};
    checked_picture(drawing::risk_curves_svg(flat, {}));
}

TEST_CASE("a sweep is drawn with a line and a band for each layout, and a mark at each change") {
    const Scenario site = small_site::site();
    for (const double width : {350.0, 960.0}) {
        const SvgElement svg = checked_picture(drawing::sweep_svg(site, along_one(9), {width, "", false}));
        CHECK(svg.find("sweep-lines")->all("path").size() == 2);
        CHECK(has_text(svg, "41: Home runs to Trunk, one enclosure"));
        CHECK(has_text(svg, "(not proven)", "desc"));
        CHECK(has_text(svg, "labour.groundworks-rate (EUR an hour)"));
        int dashed = 0;
        for (const SvgElement* line : svg.find("sweep-grid")->all("line"))
            dashed += line->attribute("stroke-dasharray").empty() ? 0 : 1;
        CHECK(dashed == 1);
    }
}

TEST_CASE("a sweep without any plan says so") {
    Sweep none = along_one(3);
    none.changes.clear();
    for (SweptPoint& point : none.points)
        point.totals.assign(2, {});
    CHECK(has_text(checked_picture(drawing::sweep_svg(small_site::site(), none, {})), "No layout can be built."));
}

TEST_CASE("two inputs are a cell for each pair of values, with a capital where the winner is proven") {
    Sweep sweep = along_one(4);
    sweep.changes.clear();
    sweep.inputs.push_back({"distance", 1, 2, 3, "", false});
    const std::vector<SweptPoint> row = sweep.points;
    sweep.points.clear();
    for (int y = 0; y < 3; ++y) {
        for (SweptPoint point : row) {
            point.y = sweep.inputs[1].at(y);
            point.proven = y == 0;
            point.winner = y == 2 ? 1 : 0;
            sweep.points.push_back(point);
        }
    }
    for (const double width : {350.0, 960.0}) {
        const SvgElement svg = checked_picture(drawing::sweep_svg(small_site::site(), sweep, {width, "", false}));
        const std::string texts = texts_in(svg);
        CHECK(std::count(texts.begin(), texts.end(), 'A') >= 4);
        CHECK(has_text(svg, "Upwards: distance"));
        CHECK(svg.all("rect").size() == 13);
    }
}
