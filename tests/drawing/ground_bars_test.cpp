#include "drawing/drawing.hpp"
#include "drawing/ground_look.hpp"
#include "drawing/support/invented_plan.hpp"
#include "drawing/support/picture_checks.hpp"
#include "support/small_site.hpp"

using namespace spadework;
using namespace spadework::testing;

namespace {

Comparison grid_comparison(InventedPlan& plan) {
    plan = grid_plan(12, LayoutKind::home_runs);
    Comparison comparison;
    comparison.layouts = {plan.result, grid_plan(12, LayoutKind::trunk_one).result};
    comparison.cheapest = 0;
    return comparison;
}

SvgElement bars_of(const Scenario& site, const Comparison& comparison, double width = 960) {
    return checked_picture(drawing::ground_bars_svg(site, comparison, {width, "", false}));
}

}  // namespace

TEST_CASE("each ground's piece is as long as its metres, with ducts and pole lines apart") {
    InventedPlan plan;
    const Comparison comparison = grid_comparison(plan);
    for (const double width : {390.0, 960.0}) {
        const SvgElement svg = bars_of(plan.scenario, comparison, width);
        std::map<std::string, double> drawn;
        double last_right = 0;
        double widest_gap = 0;
        double first_row = -1;
        for (const SvgElement& child : svg.find("ground-bars-layouts")->children) {
            if (child.name != "rect") continue;
            if (first_row < 0) first_row = child.number("y");
            if (child.number("y") != first_row) break;
            if (!drawn.empty()) widest_gap = std::max(widest_gap, child.number("x") - last_right);
            last_right = child.number("x") + child.number("width");
            drawn[child.title().substr(0, child.title().find(':'))] = child.number("width");
        }
        const auto& metres = comparison.layouts[0].trench_by_ground;
        const double unit = drawn.at("Grass") / metres.at("grass").metres();
        CHECK(drawn.at("Street") == doctest::Approx(unit * metres.at("street").metres()).epsilon(0.002));
        CHECK(drawn.at("Existing duct") == doctest::Approx(unit * metres.at("existing duct").metres()).epsilon(0.002));
        CHECK(drawn.at("Pole line") == doctest::Approx(unit * metres.at("pole line").metres()).epsilon(0.002));
        CHECK(widest_gap > 4);
        CHECK(widest_gap < 6);
        CHECK(drawn.size() == metres.size());
    }
}

TEST_CASE("the figure beside a bar is what is dug, and what is reused after a plus sign") {
    InventedPlan plan;
    const Comparison comparison = grid_comparison(plan);
    const SvgElement svg = bars_of(plan.scenario, comparison);
    CHECK(has_text(svg, " + "));
    const Scenario site = small_site::site();
    const SvgElement small = bars_of(site, small_comparison(site));
    CHECK(has_text(small, "180.0\n"));
    CHECK_FALSE(has_text(small, " + "));
    CHECK_FALSE(has_text(small, "Existing duct"));
    CHECK(has_text(small, "Not feasible."));
}

TEST_CASE("a site in feet is measured in feet") {
    Scenario site = small_site::site();
    site.feet = true;
    const SvgElement svg = bars_of(site, small_comparison(site));
    CHECK(has_text(svg, "Trench by ground (ft)"));
    CHECK(has_text(svg, "590.6\n"));
    CHECK(texts_in(svg, "desc").find("590.6 ft dug") != std::string::npos);
}

TEST_CASE("nothing compared and nothing feasible are pictures too") {
    const Scenario site = small_site::site();
    CHECK(has_text(bars_of(site, {}), "No layout was compared."));
    Comparison comparison = small_comparison(site);
    for (LayoutResult& layout : comparison.layouts)
        layout.plan.reset();
    bars_of(site, comparison, 320);
}

TEST_CASE("grounds look the same in every picture, and many grounds all differ") {
    Scenario site = small_site::site();
    site.grounds.clear();
    site.segments.clear();
    for (int g = 0; g < 20; ++g) {
        site.grounds.push_back({"g" + std::to_string(g), "", {small_site::open_cut()}});
        small_site::add_segment(site, "s" + std::to_string(100 + g), 0, 1, 10);
        site.segments.back().ground = g;
    }
    const auto looks = drawing::ground_looks(site);
    REQUIRE(looks.size() == 20);
    for (std::size_t a = 0; a < looks.size(); ++a) {
        for (std::size_t b = a + 1; b < looks.size(); ++b) {
            CHECK(looks[a].fill != looks[b].fill);
            CHECK((looks[a].dashes != looks[b].dashes || looks[a].fill.colour != looks[b].fill.colour));
        }
    }
    CHECK(drawing::look_of(looks, "g3").fill == looks[3].fill);
    CHECK(drawing::look_of(looks, "pole line").name == "Pole line");
}
