#include "comparison/comparison.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "comparison/support/crossroads_site.hpp"
#include "rates/quote_rates.hpp"

namespace spadework {

namespace {

LayoutResult assessed(const Scenario& scenario, const RoutedLayout& routed, Money bound = Money()) {
    return assess(scenario, crossroads::design_of(scenario, routed, bound));
}

Length sum(const std::map<std::string, Length>& lengths) {
    Length total;
    for (const auto& [name, length] : lengths)
        total += length;
    return total;
}

}  // namespace

TEST_CASE("the bound is quoted on the total the customer pays, and the gap is what lies between") {
    const Scenario scenario = crossroads::site();
    const LayoutResult result = assessed(scenario, crossroads::trunk(), Money::from_minor(500000));
    REQUIRE(result.feasible());
    // 10 % contingency, then 20 % tax.
    CHECK(result.bound == Money::from_minor(660000));
    CHECK(result.total == result.bill.total());
    CHECK(result.total == quote_for(direct_cost(result.bill), scenario.rules).total());
    const auto total = static_cast<double>(result.total.minor());
    CHECK(result.gap == doctest::Approx((total - 660000) / total));
}

TEST_CASE("metres reconcile: by ground and by method they sum to what is dug and what is reused") {
    const Scenario scenario = crossroads::site();
    for (const RoutedLayout& routed : {crossroads::home_runs(), crossroads::trunk(), crossroads::chains()}) {
        const LayoutResult result = assessed(scenario, routed);
        REQUIRE(result.feasible());
        CHECK(sum(result.trench_by_ground) == result.trench + result.reused);
        CHECK(sum(result.trench_by_method) == result.trench + result.reused);
        Length opened;
        for (const Step& step : result.plan->trenches)
            opened += scenario.segments[static_cast<std::size_t>(step.segment)].length;
        CHECK(opened == result.trench + result.reused);
    }
}

TEST_CASE("existing ducts and pole lines are not dug") {
    const Scenario scenario = crossroads::site();
    const LayoutResult runs = assessed(scenario, crossroads::home_runs());
    CHECK(runs.trench == Length::from_metres(60 + 90.5 + 80.25 + 110));
    CHECK(runs.reused == Length::from_metres(70));
    CHECK(runs.trench_by_ground.at("existing duct") == Length::from_metres(70));
    CHECK(runs.trench_by_method.at("bore") == Length::from_metres(110));
    const LayoutResult trunk = assessed(scenario, crossroads::trunk());
    CHECK(trunk.reused == Length::from_metres(72));
    CHECK(trunk.trench_by_ground.at("pole line") == Length::from_metres(72));
}

TEST_CASE("cable metres are those of the cables, by strand count") {
    const Scenario scenario = crossroads::site();
    const LayoutResult result = assessed(scenario, crossroads::trunk());
    // 8 strands in use, 2 spare, 3 for growth: the trunk takes 24 strands.
    CHECK(result.cable_by_strands.at(24).route == Length::from_metres(150.5));
    CHECK(result.cable_by_strands.at(4).route == Length::from_metres(80.25 + 95 + 72 + 42));
    // (150.5 + 2 * 4.5) * 1.02 = 162.69 m, ordered in steps of 10 m.
    CHECK(result.cable_by_strands.at(24).with_slack == Length::from_metres(162.69));
    CHECK(result.cable_by_strands.at(24).ordered == Length::from_metres(170));
}

TEST_CASE("the worst margin is that of the worst link, and the worst cut names who is lost") {
    const LayoutResult result = assessed(crossroads::site(), crossroads::trunk());
    REQUIRE(result.worst_margin_db);
    for (const LinkBudget& budget : result.link_budgets)
        CHECK(*result.worst_margin_db <= budget.worse().margin_db);
    CHECK(result.worst_cut.lost.size() == 3);
}

TEST_CASE("a design without a plan stays infeasible with its reason") {
    Design design;
    design.layout = LayoutKind::trunk;
    design.reason = "no place may take an enclosure";
    design.notes = {"a note"};
    const LayoutResult result = assess(crossroads::site(), design);
    CHECK(!result.feasible());
    CHECK(result.reason == "no place may take an enclosure");
    CHECK(result.notes.size() == 1);
    CHECK(result.total == Money());
}

TEST_CASE("an error among the findings makes a layout infeasible, with the finding as the reason") {
    const Scenario scenario = crossroads::site();
    Design design = crossroads::design_of(scenario, crossroads::chains());
    Scenario weak = scenario;
    weak.catalogue.building_gear[0].poe_budget_w = 5;
    const LayoutResult result = assess(weak, design);
    CHECK(!result.feasible());
    REQUIRE(has_errors(result.findings));
    CHECK(result.reason.find(result.findings.front().where + ": " + result.findings.front().what) == 0);
    CHECK(result.bill.lines.empty());
}

TEST_CASE("the cheapest feasible layout wins and ties go to the earlier kind") {
    const Scenario scenario = crossroads::site();
    LayoutResult runs = assessed(scenario, crossroads::home_runs());
    LayoutResult trunk = assessed(scenario, crossroads::trunk());
    LayoutResult chain = assessed(scenario, crossroads::chains());
    const Comparison comparison = compare(scenario, {chain, trunk, runs});
    REQUIRE(comparison.cheapest);
    CHECK(comparison.layouts[0].layout == LayoutKind::home_runs);
    CHECK(comparison.layouts[2].layout == LayoutKind::daisy_chain);
    const Money least = std::min({runs.total, trunk.total, chain.total});
    CHECK(comparison.layouts[static_cast<std::size_t>(*comparison.cheapest)].total == least);
    CHECK(!comparison.verdict.empty());

    trunk.total = runs.total;
    chain.total = runs.total;
    CHECK(compare(scenario, {chain, trunk, runs}).cheapest == 0);
    runs.plan.reset();
    CHECK(compare(scenario, {chain, trunk, runs}).cheapest == 1);
    CHECK(!compare(scenario, {}).cheapest);
}

}  // namespace spadework
