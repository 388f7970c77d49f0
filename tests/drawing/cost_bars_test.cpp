#include <algorithm>

#include "drawing/drawing.hpp"
#include "drawing/support/invented_plan.hpp"
#include "drawing/support/picture_checks.hpp"
#include "support/small_site.hpp"

using namespace spadework;
using namespace spadework::testing;

namespace {

SvgElement bars_of(const Scenario& site, const Comparison& comparison, double width = 960) {
    return checked_picture(drawing::cost_bars_svg(site, comparison, {width, "p-", false}), "p-");
}

/// Rectangles of the bars, row by row.
std::map<double, std::vector<const SvgElement*>> rows_of(const SvgElement& svg, const std::string& id) {
    std::map<double, std::vector<const SvgElement*>> rows;
    for (const SvgElement& child : svg.find(id)->children) {
        if (child.name == "rect") rows[child.number("y")].push_back(&child);
    }
    return rows;
}

}  // namespace

TEST_CASE("bars are as long as their totals, to one scale, and hold every category") {
    const Scenario site = small_site::site();
    const Comparison comparison = small_comparison(site);
    for (const double width : {390.0, 960.0}) {
        const SvgElement svg = bars_of(site, comparison, width);
        const auto rows = rows_of(svg, "p-cost-bars-layouts");
        REQUIRE(rows.size() == 3);
        std::size_t layout = 0;
        double units_per_minor = 0;
        for (const auto& [y, pieces] : rows) {
            const LayoutResult& result = comparison.layouts[layout++];
            double length = 0;
            for (const SvgElement* piece : pieces)
                length += piece->number("width");
            const double here = length / static_cast<double>(result.total.minor());
            if (units_per_minor == 0) units_per_minor = here;
            CHECK(here == doctest::Approx(units_per_minor).epsilon(0.001));
            int categories = 0;
            for (int c = 0; c < category_count; ++c)
                categories += result.bill.total(static_cast<Category>(c)) != Money() ? 1 : 0;
            CHECK(static_cast<int>(pieces.size()) == categories);
            for (std::size_t p = 0; p + 1 < pieces.size(); ++p)
                CHECK(pieces[p + 1]->number("x") ==
                      doctest::Approx(pieces[p]->number("x") + pieces[p]->number("width")).epsilon(0.001));
        }
    }
}

TEST_CASE("the proven bound stands at its amount, the cheapest is named, the infeasible says why") {
    const Scenario site = small_site::site();
    const Comparison comparison = small_comparison(site);
    const SvgElement svg = bars_of(site, comparison);
    const SvgElement& group = *svg.find("p-cost-bars-layouts");
    std::vector<double> marks;
    for (const SvgElement& child : group.children) {
        if (child.name == "line" && !child.title().empty()) marks.push_back(child.number("x1"));
    }
    REQUIRE(marks.size() == 3);
    const auto rows = rows_of(svg, "p-cost-bars-layouts");
    std::size_t layout = 0;
    for (const auto& [y, pieces] : rows) {
        const double left = pieces.front()->number("x");
        const double right = pieces.back()->number("x") + pieces.back()->number("width");
        const LayoutResult& result = comparison.layouts[layout];
        const double share = static_cast<double>(result.bound.minor()) / static_cast<double>(result.total.minor());
        CHECK((marks[layout] - left) / (right - left) == doctest::Approx(share).epsilon(0.002));
        ++layout;
    }
    CHECK(has_text(group, "Trunk, one enclosure (cheapest)"));
    CHECK(has_text(group, "Not feasible: the map has no second way to the mill"));
    CHECK(has_text(svg, "EUR"));
}

TEST_CASE("ticks stand where their value is") {
    const Scenario site = small_site::site();
    const Comparison comparison = small_comparison(site);
    const SvgElement svg = bars_of(site, comparison);
    const auto rows = rows_of(svg, "p-cost-bars-layouts");
    const auto& pieces = rows.begin()->second;
    const double left = pieces.front()->number("x");
    const double units_per_minor = (pieces.back()->number("x") + pieces.back()->number("width") - left) /
                                   static_cast<double>(comparison.layouts[0].total.minor());
    int ticks = 0;
    for (const SvgElement* text : svg.find("p-cost-bars-axis")->all("text")) {
        std::string value = text->text;
        value.erase(std::remove(value.begin(), value.end(), ','), value.end());
        if (value.find_first_not_of("0123456789.") != std::string::npos) continue;
        const double minor = 100 * std::strtod(value.c_str(), nullptr);
        // The first and the last are moved inwards so that they stay in the picture.
        if (minor > 0 && text->number("x") < 900)
            CHECK(text->number("x") == doctest::Approx(left + minor * units_per_minor).epsilon(0.002));
        ++ticks;
    }
    CHECK(ticks >= 3);
}

TEST_CASE("nothing compared, nothing feasible, and free of charge are pictures too") {
    const Scenario site = small_site::site();
    CHECK(has_text(bars_of(site, {}), "No layout was compared."));
    Comparison comparison = small_comparison(site);
    for (LayoutResult& layout : comparison.layouts) {
        layout.plan.reset();
        layout.reason = hostile_name;
    }
    comparison.cheapest.reset();
    const SvgElement svg = bars_of(site, comparison, 390);
    CHECK(rows_of(svg, "p-cost-bars-layouts").empty());
    CHECK(svg.find("p-cost-bars-axis") == nullptr);
    Comparison free = small_comparison(site);
    for (LayoutResult& layout : free.layouts) {
        layout.bill = {};
        layout.total = layout.bound = Money();
    }
    CHECK(has_text(bars_of(site, free), "0.00"));
}

TEST_CASE("amounts near the largest there can be do not spoil the picture") {
    const Scenario site = small_site::site();
    Comparison comparison = small_comparison(site);
    for (CostLine& line : comparison.layouts[0].bill.lines)
        line.amount = Money();
    comparison.layouts[0].bill.lines.front().amount = Money::from_minor(9'000'000'000'000'000'000 / 8);
    comparison.layouts[0].total = comparison.layouts[0].bill.total();
    comparison.layouts[0].bound = comparison.layouts[0].total;
    bars_of(site, comparison);
    bars_of(site, comparison, 320);
}

TEST_CASE("the description gives every total and bound") {
    const Scenario site = small_site::site();
    const Comparison comparison = small_comparison(site);
    const std::string desc = texts_in(bars_of(site, comparison), "desc");
    CHECK(desc.find("Home runs: EUR") != std::string::npos);
    CHECK(desc.find("proven lower bound EUR") != std::string::npos);
    CHECK(desc.find("Ring: not feasible") != std::string::npos);
}
