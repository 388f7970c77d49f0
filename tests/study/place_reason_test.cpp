#include "study/place_reason.hpp"

#include <doctest/doctest.h>

using namespace spadework;

namespace {

CostLine line(Category category, std::int64_t minor) {
    CostLine line;
    line.category = category;
    line.amount = Money::from_minor(minor);
    return line;
}

LayoutResult result(std::vector<CostLine> lines, double trench_m, double ordered_m) {
    LayoutResult result;
    result.bill.lines = std::move(lines);
    result.trench = Length::from_metres(trench_m);
    result.cable_by_strands[12].ordered = Length::from_metres(ordered_m);
    return result;
}

}  // namespace

TEST_CASE("a result is no dearer than itself") {
    const LayoutResult best = result({line(Category::cable, 500)}, 10, 20);
    CHECK(why_dearer(Scenario{}, best, best).empty());
}

TEST_CASE("dearer categories come first, dearest leading, then the cheaper ones, with the metres behind them") {
    const LayoutResult best = result({line(Category::groundworks, 100'00), line(Category::cable, 50'00)}, 100, 200);
    const LayoutResult dearer =
        result({line(Category::groundworks, 90'00), line(Category::cable, 60'00), line(Category::enclosures, 300'00)},
               95.5, 240);
    CHECK(why_dearer(Scenario{}, dearer, best) ==
          "enclosures EUR 300.00 more, cable EUR 10.00 more (40.0 m more cable ordered), "
          "groundworks EUR 10.00 less (4.5 m less trench)");
}

TEST_CASE("contingency and tax are left out because they follow from the rest") {
    const LayoutResult best = result({line(Category::contingency, 10), line(Category::tax, 20)}, 0, 0);
    const LayoutResult dearer = result({line(Category::contingency, 11), line(Category::tax, 25)}, 0, 0);
    CHECK(why_dearer(Scenario{}, dearer, best).empty());
}

TEST_CASE("a site in feet is told in feet") {
    Scenario scenario;
    scenario.feet = true;
    const LayoutResult best = result({line(Category::groundworks, 1)}, 0, 0);
    const LayoutResult dearer = result({line(Category::groundworks, 100'01)}, 3.048, 0);
    CHECK(why_dearer(scenario, dearer, best) == "groundworks EUR 100.00 more (10.0 ft more trench)");
}
