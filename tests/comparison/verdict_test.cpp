#include "comparison/verdict.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "comparison/money_words.hpp"

namespace spadework {

namespace {

/// A layout that costs the given amounts, in cents.
LayoutResult costing(LayoutKind layout, std::int64_t groundworks, std::int64_t cable, std::int64_t enclosures,
                     std::int64_t bound = 0) {
    LayoutResult result;
    result.layout = layout;
    result.plan.emplace();
    const auto line = [&](Category category, std::int64_t amount) {
        result.bill.lines.emplace_back();
        result.bill.lines.back().category = category;
        result.bill.lines.back().amount = Money::from_minor(amount);
    };
    line(Category::groundworks, groundworks);
    line(Category::cable, cable);
    line(Category::enclosures, enclosures);
    result.total = result.bill.total();
    result.bound = Money::from_minor(bound);
    return result;
}

LayoutResult impossible(LayoutKind layout, const std::string& reason) {
    LayoutResult result;
    result.layout = layout;
    result.reason = reason;
    return result;
}

/// Sentences that end in a full stop, of a text without abbreviations.
int sentences_in(const std::string& text) {
    int count = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '.' && (i + 1 == text.size() || text[i + 1] == ' ')) ++count;
    }
    return count;
}

double direct_with(const LayoutResult& layout, Category category, double factor) {
    const auto part = static_cast<double>(layout.bill.total(category).minor());
    return static_cast<double>(direct_cost(layout.bill).minor()) + (factor - 1) * part;
}

}  // namespace

TEST_CASE("the verdict names winner, price, lead and proof, then what would change it") {
    const Scenario scenario;
    // Cable at half price: 1000 + 300 against 900 + 450 is 1300 to 1350; level at a factor of (1000-900)/(900-600) =
    // 1/3.
    const std::vector<LayoutResult> layouts = {costing(LayoutKind::home_runs, 90000, 90000, 0, 170000),
                                               costing(LayoutKind::trunk, 80000, 60000, 20000, 150000)};
    CHECK(verdict(scenario, layouts, 1) ==
          "Trunk costs least at EUR 1,600.00, which is EUR 200.00 (11.1 %) below home runs, the next best; the lower "
          "bounds "
          "prove that no plan of another layout costs less. It saves most on cable (EUR 300.00 less) and "
          "spends more on enclosures (EUR 200.00 more); with the plans as they are, home runs would draw level if "
          "enclosures cost 100 % more, or cable 67 % less.");
}

TEST_CASE("where the bounds leave room, the verdict says how much") {
    const std::vector<LayoutResult> layouts = {costing(LayoutKind::home_runs, 90000, 90000, 0, 155000),
                                               costing(LayoutKind::trunk, 80000, 60000, 20000, 150000)};
    const std::string text = verdict(Scenario(), layouts, 1);
    CHECK(text.find("no plan of another layout undercuts it by more than EUR 50.00") != std::string::npos);
}

TEST_CASE("at a turning point the direct costs are equal, and the nearest comes first") {
    const std::vector<LayoutResult> layouts = {costing(LayoutKind::home_runs, 91234, 90071, 0),
                                               costing(LayoutKind::trunk, 80000, 60000, 20000),
                                               costing(LayoutKind::daisy_chain, 70000, 50000, 95000)};
    const auto points = turning_points(layouts, 1);
    REQUIRE(!points.empty());
    double last = 1;
    for (const TurningPoint& point : points) {
        const double factor = 1 + point.change;
        CHECK(factor >= 0);
        CHECK(direct_with(layouts[1], point.category, factor) ==
              doctest::Approx(direct_with(layouts[static_cast<std::size_t>(point.layout)], point.category, factor)));
        const double distance = factor < 1 ? 1 / factor : factor;
        CHECK(distance >= last);
        last = distance;
    }
}

TEST_CASE("a change just short of the turning point leaves the order, one just beyond it turns it") {
    const std::vector<LayoutResult> layouts = {costing(LayoutKind::home_runs, 91234, 90071, 0),
                                               costing(LayoutKind::trunk, 80000, 60000, 20000)};
    for (const TurningPoint& point : turning_points(layouts, 1)) {
        const double short_of = 1 + point.change * 0.999;
        const double beyond = 1 + point.change * 1.001;
        CHECK(direct_with(layouts[1], point.category, short_of) < direct_with(layouts[0], point.category, short_of));
        CHECK(direct_with(layouts[1], point.category, beyond) > direct_with(layouts[0], point.category, beyond));
    }
}

TEST_CASE("a layout that is no dearer in any category cannot be overtaken by one price") {
    const std::vector<LayoutResult> layouts = {costing(LayoutKind::home_runs, 90000, 90000, 0),
                                               costing(LayoutKind::trunk, 80000, 60000, 0)};
    CHECK(turning_points(layouts, 1).empty());
    const std::string text = verdict(Scenario(), layouts, 1);
    CHECK(text.find("no other layout would overtake it whatever any one category cost") != std::string::npos);
    CHECK(sentences_in(text) == 2);
}

TEST_CASE("a turning point beyond a tenfold change is not told as one") {
    // Level when 159000 + 1000 f = 180000: at 21 times the price of the enclosures.
    const std::vector<LayoutResult> layouts = {costing(LayoutKind::home_runs, 90000, 90000, 0),
                                               costing(LayoutKind::trunk, 89000, 70000, 1000)};
    const auto points = turning_points(layouts, 1);
    REQUIRE(points.size() == 2);
    CHECK(points[0].change == doctest::Approx(20));
    CHECK(points[1].change == -1);  // or when cable costs nothing
    const std::string text = verdict(Scenario(), layouts, 1);
    CHECK(text.find("no other layout would overtake it even if one category cost ten times as much or a tenth") !=
          std::string::npos);
    CHECK(sentences_in(text) == 2);
}

TEST_CASE("layouts at the same total are named as such and not called the next best") {
    const std::vector<LayoutResult> layouts = {costing(LayoutKind::home_runs, 90000, 90000, 0),
                                               costing(LayoutKind::trunk_one, 80000, 60000, 20000),
                                               costing(LayoutKind::trunk, 80000, 60000, 20000)};
    const std::string text = verdict(Scenario(), layouts, 1);
    CHECK(text.find("Trunk, one enclosure costs least at EUR 1,600.00 (trunk costs the same)") == 0);
    CHECK(text.find("below home runs") != std::string::npos);
    CHECK(sentences_in(text) == 2);
}

TEST_CASE("with one layout standing, the verdict says what stops the others") {
    const std::vector<LayoutResult> layouts = {impossible(LayoutKind::home_runs, "the duct is full."),
                                               costing(LayoutKind::trunk, 80000, 60000, 20000)};
    CHECK(
        verdict(Scenario(), layouts, 1) ==
        "Trunk costs EUR 1,600.00, and no other layout looked at can be built. Another could win only once what stops "
        "it is gone (home runs: the duct is full).");
}

TEST_CASE("with nothing standing, the verdict says what stops each") {
    const std::vector<LayoutResult> layouts = {impossible(LayoutKind::home_runs, "no optic reaches"),
                                               impossible(LayoutKind::trunk, "no place is allowed.")};
    CHECK(
        verdict(Scenario(), layouts, std::nullopt) ==
        "No layout can be built as the site stands. What stops each one: home runs: no optic reaches; trunk: no place "
        "is allowed.");
}

TEST_CASE("layouts stopped by the same thing are named together") {
    const std::vector<LayoutResult> layouts = {impossible(LayoutKind::home_runs, "no optic reaches"),
                                               impossible(LayoutKind::trunk, "no optic reaches"),
                                               impossible(LayoutKind::daisy_chain, "a chain is too long")};
    CHECK(verdict(Scenario(), layouts, std::nullopt) ==
          "No layout can be built as the site stands. What stops each one: home runs, trunk: no optic reaches; daisy "
          "chain: a chain is too long.");
}

TEST_CASE("home runs are many and cost, a trunk is one and costs") {
    const std::vector<LayoutResult> layouts = {costing(LayoutKind::home_runs, 10000, 10000, 0),
                                               costing(LayoutKind::trunk, 80000, 60000, 20000)};
    CHECK(verdict(Scenario(), layouts, 0).find("Home runs cost least at EUR 200.00") == 0);
    CHECK(verdict(Scenario(), {layouts[0]}, 0).find("Home runs cost EUR 200.00") == 0);
    CHECK(verdict(Scenario(), {layouts[1]}, 0).find("Trunk costs EUR 1,600.00") == 0);
}

TEST_CASE("with one layout looked at, nothing is compared") {
    const std::vector<LayoutResult> layouts = {costing(LayoutKind::trunk, 80000, 60000, 20000)};
    const std::string text = verdict(Scenario(), layouts, 0);
    CHECK(text.find("Trunk costs EUR 1,600.00") == 0);
    CHECK(sentences_in(text) == 2);
}

TEST_CASE("money in words has a comma between thousands") {
    CHECK(money_in_words(Money::from_minor(123456789), {"EUR", 2}) == "EUR 1,234,567.89");
    CHECK(money_in_words(Money::from_minor(-100000), {"EUR", 2}) == "EUR -1,000.00");
    CHECK(money_in_words(Money::from_minor(99999), {"JPY", 0}) == "JPY 99,999");
}

}  // namespace spadework
