#include "comparison/verification.hpp"

#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "comparison/support/crossroads_site.hpp"

namespace spadework {

namespace {

std::string joined(const std::vector<std::string>& sentences) {
    std::string text;
    for (const std::string& sentence : sentences)
        text += sentence + "\n";
    return text;
}

LayoutResult good(const Scenario& scenario, const RoutedLayout& routed) {
    LayoutResult result = assess(scenario, crossroads::design_of(scenario, routed, Money::from_minor(100000)));
    REQUIRE_MESSAGE(result.feasible(), result.reason);
    return result;
}

using Damage = std::function<void(LayoutResult&)>;

/// Each damage, done to a good result, must be noticed.
void must_all_be_noticed(const Scenario& scenario, const RoutedLayout& routed,
                         const std::vector<std::pair<std::string, Damage>>& damages) {
    const LayoutResult sound = good(scenario, routed);
    REQUIRE_MESSAGE(violations(scenario, sound).empty(), joined(violations(scenario, sound)));
    for (const auto& damage : damages) {
        LayoutResult broken = sound;
        damage.second(broken);
        CHECK_MESSAGE(!violations(scenario, broken).empty(), "not noticed: ", damage.first);
    }
}

Plan& plan_of(LayoutResult& result) {
    return *result.plan;
}

const Length one_millimetre = Length::from_millimetres(1);

}  // namespace

TEST_CASE("sound results of every layout hold, factory-made or spliced, in metres or feet, duplex or on one strand") {
    for (const Termination termination : {Termination::factory, Termination::spliced}) {
        for (const bool feet : {false, true}) {
            Scenario scenario = crossroads::site();
            scenario.rules.termination = termination;
            scenario.feet = feet;
            for (const RoutedLayout& routed :
                 {crossroads::home_runs(), crossroads::trunk(), crossroads::chains(), crossroads::rings()}) {
                const LayoutResult result = good(scenario, routed);
                CHECK_MESSAGE(violations(scenario, result).empty(), joined(violations(scenario, result)));
            }
        }
    }
}

TEST_CASE("a layout that cannot be built holds when it says why") {
    const Scenario scenario = crossroads::site();
    LayoutResult result;
    CHECK(violations(scenario, result).size() == 1);
    result.reason = "no way to the hub";
    CHECK(violations(scenario, result).empty());
}

TEST_CASE("damage to the routes is noticed") {
    must_all_be_noticed(
        crossroads::site(), crossroads::home_runs(),
        {{"a step left out", [](LayoutResult& r) { plan_of(r).cables[0].steps.pop_back(); }},
         {"a step put twice",
          [](LayoutResult& r) { plan_of(r).cables[0].steps.push_back(plan_of(r).cables[0].steps.back()); }},
         {"steps in the wrong order",
          [](LayoutResult& r) { std::swap(plan_of(r).cables[0].steps[0], plan_of(r).cables[0].steps[1]); }},
         {"another end", [](LayoutResult& r) { plan_of(r).cables[0].to = crossroads::kiosk; }},
         {"another beginning", [](LayoutResult& r) { plan_of(r).cables[0].from = crossroads::gate; }},
         {"a segment that does not exist", [](LayoutResult& r) { plan_of(r).cables[0].steps[0].segment = 99; }},
         {"a negative segment", [](LayoutResult& r) { plan_of(r).trenches[0].segment = -1; }},
         {"a way that does not exist", [](LayoutResult& r) { plan_of(r).cables[0].steps[0].way = 7; }},
         {"another way than the trench's", [](LayoutResult& r) { plan_of(r).cables[0].steps[0].way = 1; }},
         {"a trench left out", [](LayoutResult& r) { plan_of(r).trenches.pop_back(); }},
         {"a trench for nobody",
          [](LayoutResult& r) {
              plan_of(r).trenches.push_back({crossroads::wires, 0});
          }},
         {"a trench twice", [](LayoutResult& r) { plan_of(r).trenches.push_back(plan_of(r).trenches.back()); }},
         {"trenches out of order", [](LayoutResult& r) { std::swap(plan_of(r).trenches[0], plan_of(r).trenches[1]); }},
         {"two cables of one name", [](LayoutResult& r) { plan_of(r).cables[1].id = plan_of(r).cables[0].id; }},
         {"a route a millimetre longer", [](LayoutResult& r) { plan_of(r).cables[0].lengths.route += one_millimetre; }},
         {"slack a millimetre longer",
          [](LayoutResult& r) { plan_of(r).cables[0].lengths.with_slack += one_millimetre; }},
         {"an order one step longer",
          [](LayoutResult& r) { plan_of(r).cables[0].lengths.ordered += Length::from_metres(10); }},
         {"a joint too many", [](LayoutResult& r) { plan_of(r).cables[0].lengths.joints += 1; }},
         {"a cable left out", [](LayoutResult& r) { plan_of(r).cables.pop_back(); }}});
}

TEST_CASE("a banned segment and an overfull duct are noticed") {
    const Scenario open = crossroads::site();
    const LayoutResult sound = good(open, crossroads::home_runs());
    Scenario banned = open;
    banned.segments[crossroads::avenue].ban = "protected trees";
    CHECK(!violations(banned, sound).empty());
    Scenario full = open;
    full.segments[crossroads::path].duct_room = 0;
    CHECK(!violations(full, sound).empty());
}

TEST_CASE("damage to strands and enclosures is noticed") {
    must_all_be_noticed(
        crossroads::site(), crossroads::trunk(),
        {{"a trunk too small", [](LayoutResult& r) { plan_of(r).cables[0].product = 0; }},
         {"a product that does not exist", [](LayoutResult& r) { plan_of(r).cables[0].product = 3; }},
         {"no spare strands in the trunk", [](LayoutResult& r) { plan_of(r).cables[0].need.spare = 0; }},
         {"no headroom in the trunk", [](LayoutResult& r) { plan_of(r).cables[0].need.headroom = 0; }},
         {"fewer strands in use", [](LayoutResult& r) { plan_of(r).cables[0].need.in_use -= 2; }},
         {"more strands in use", [](LayoutResult& r) { plan_of(r).cables[1].need.in_use += 2; }},
         {"an enclosure too small",
          [](LayoutResult& r) {
              plan_of(r).enclosures[0].products = {{0, 1}};
          }},
         {"no enclosure product", [](LayoutResult& r) { plan_of(r).enclosures[0].products.clear(); }},
         {"an enclosure where none may stand",
          [](LayoutResult& r) { plan_of(r).enclosures[0].place = crossroads::yard; }},
         {"an enclosure twice", [](LayoutResult& r) { plan_of(r).enclosures.push_back(plan_of(r).enclosures[0]); }},
         {"an enclosure forgotten", [](LayoutResult& r) { plan_of(r).enclosures.clear(); }},
         {"a building not on its list", [](LayoutResult& r) { plan_of(r).enclosures[0].serves.pop_back(); }},
         {"a building that does not exist", [](LayoutResult& r) { plan_of(r).enclosures[0].serves[0] = 9; }},
         {"its trunk forgotten", [](LayoutResult& r) { plan_of(r).enclosures[0].trunks.clear(); }},
         {"a drop for its trunk", [](LayoutResult& r) { plan_of(r).enclosures[0].trunks = {1}; }},
         {"a drop called a home run", [](LayoutResult& r) { plan_of(r).cables[1].role = CableRole::home_run; }},
         {"a drop for another building",
          [](LayoutResult& r) { plan_of(r).cables[1].building = crossroads::lodge_house; }},
         {"the need of the enclosure", [](LayoutResult& r) { plan_of(r).enclosures[0].need.spare += 1; }}});
}

TEST_CASE("a cable for no building is said to lie dark where no link uses it, and to be in use where one does") {
    const Scenario scenario = crossroads::site();
    const auto says = [&](const LayoutResult& result, const std::string& sentence) {
        return joined(violations(scenario, result)).find(sentence) != std::string::npos;
    };
    LayoutResult left = good(scenario, crossroads::home_runs());
    PlannedCable dark = plan_of(left).cables[0];
    dark.id = "run-left";
    dark.need = {0, dark.need.total(), 0};
    dark.building.reset();
    plan_of(left).cables.push_back(dark);
    CHECK(says(left, "Cable run-left lies dark: no building has it."));
    CHECK(!says(left, "in use for no building"));

    LayoutResult lit = good(scenario, crossroads::home_runs());
    plan_of(lit).cables[0].building.reset();
    CHECK(says(lit, "Cable run-barn has 2 strands in use for no building."));
    CHECK(!says(lit, "lies dark"));
}

TEST_CASE("more enclosures than allowed are noticed") {
    Scenario scenario = crossroads::site();
    const LayoutResult sound = good(scenario, crossroads::trunk());
    scenario.rules.most_enclosures = 0;
    CHECK(!violations(scenario, sound).empty());
}

TEST_CASE("damage to links and optics is noticed") {
    must_all_be_noticed(
        crossroads::site(), crossroads::trunk(),
        {{"a link left out", [](LayoutResult& r) { plan_of(r).links.pop_back(); }},
         {"a link twice", [](LayoutResult& r) { plan_of(r).links.push_back(plan_of(r).links.back()); }},
         {"a link without cables", [](LayoutResult& r) { plan_of(r).links[0].cables.clear(); }},
         {"a link without its trunk",
          [](LayoutResult& r) { plan_of(r).links[0].cables.erase(plan_of(r).links[0].cables.begin()); }},
         {"a link in another's drop", [](LayoutResult& r) { plan_of(r).links[0].cables[1] = 2; }},
         {"a link to another building",
          [](LayoutResult& r) { plan_of(r).links[0].building = crossroads::lodge_house; }},
         {"a link from a building", [](LayoutResult& r) { plan_of(r).links[0].from = crossroads::lodge_house; }},
         {"a slower link", [](LayoutResult& r) { plan_of(r).links[0].rate = BitRate::from_megabits(100); }},
         {"a faster link", [](LayoutResult& r) { plan_of(r).links[0].rate = BitRate::from_megabits(10000); }},
         {"one strand for two", [](LayoutResult& r) { plan_of(r).links[0].strands = 1; }},
         {"a millimetre of fibre", [](LayoutResult& r) { plan_of(r).links[0].glass += one_millimetre; }},
         {"a mated pair too few", [](LayoutResult& r) { plan_of(r).links[0].mated_pairs -= 1; }},
         {"a splice too many", [](LayoutResult& r) { plan_of(r).links[0].splices += 1; }},
         {"an optic that does not exist", [](LayoutResult& r) { plan_of(r).links[0].optic = 1; }},
         {"a port too few at the hub", [](LayoutResult& r) { plan_of(r).hub_ports -= 1; }},
         {"no gear at the hub", [](LayoutResult& r) { plan_of(r).hub_gear.clear(); }},
         {"no gear in a building", [](LayoutResult& r) { plan_of(r).building_gear.pop_back(); }},
         {"gear in one building twice",
          [](LayoutResult& r) { plan_of(r).building_gear[0].building = plan_of(r).building_gear[1].building; }},
         {"no pieces of gear", [](LayoutResult& r) { plan_of(r).building_gear[0].pieces.count = 0; }}});
}

TEST_CASE("an optic that cannot carry its link is noticed, at either limit and in either direction") {
    const Scenario scenario = crossroads::site();
    const LayoutResult sound = good(scenario, crossroads::trunk());
    const std::vector<std::function<void(OpticProduct&)>> changes = {
        [](OpticProduct& optic) { optic.reach = Length::from_metres(100); },
        [](OpticProduct& optic) { optic.least_length = Length::from_metres(1000); },
        [](OpticProduct& optic) { optic.rate = BitRate::from_megabits(100); },
        [](OpticProduct& optic) { optic.strand_use = StrandUse::bidirectional; },
        [](OpticProduct& optic) { optic.to_building.receive_min_dbm = -12; },
        [](OpticProduct& optic) { optic.to_hub.receive_min_dbm = -12; },
        [](OpticProduct& optic) { optic.to_building.receive_max_dbm = -10; },
        [](OpticProduct& optic) { optic.to_hub.receive_max_dbm = -10; },
    };
    for (const auto& change : changes) {
        Scenario other = scenario;
        change(other.catalogue.optics[0]);
        CHECK(!violations(other, sound).empty());
    }
}

TEST_CASE("damage to chains is noticed") {
    must_all_be_noticed(
        crossroads::site(), crossroads::chains(),
        {{"a building in no chain", [](LayoutResult& r) { plan_of(r).chains.pop_back(); }},
         {"a building in two chains", [](LayoutResult& r) { plan_of(r).chains.push_back({crossroads::barn_house}); }},
         {"a chain turned round", [](LayoutResult& r) { std::swap(plan_of(r).chains[0][0], plan_of(r).chains[0][1]); }},
         {"a link that skips a building", [](LayoutResult& r) { plan_of(r).links[0].from.reset(); }},
         {"a hop called a home run", [](LayoutResult& r) { plan_of(r).cables[0].role = CableRole::home_run; }},
         {"a hop for nobody", [](LayoutResult& r) { plan_of(r).cables[0].building.reset(); }},
         {"another layout", [](LayoutResult& r) { plan_of(r).layout = LayoutKind::home_runs; }}});
    Scenario scenario = crossroads::site();
    const LayoutResult sound = good(scenario, crossroads::chains());
    scenario.rules.hop_limit = 1;
    CHECK(!violations(scenario, sound).empty());
}

TEST_CASE("damage to rings is noticed") {
    must_all_be_noticed(
        crossroads::site(), crossroads::rings(),
        {{"a building in no ring", [](LayoutResult& r) { plan_of(r).chains.pop_back(); }},
         {"a building in two rings", [](LayoutResult& r) { plan_of(r).chains.push_back({crossroads::barn_house}); }},
         {"a ring turned round", [](LayoutResult& r) { std::swap(plan_of(r).chains[0][0], plan_of(r).chains[0][1]); }},
         {"a ring without buildings", [](LayoutResult& r) { plan_of(r).chains.emplace_back(); }},
         {"a closing cable called a hop", [](LayoutResult& r) { plan_of(r).cables[3].role = CableRole::hop; }},
         {"a hop called a closing cable", [](LayoutResult& r) { plan_of(r).cables[0].role = CableRole::closing; }},
         {"a closing cable for another building",
          [](LayoutResult& r) { plan_of(r).cables[3].building = crossroads::kiosk_house; }},
         {"a closing link from a building",
          [](LayoutResult& r) { plan_of(r).links[2].from = crossroads::lodge_house; }},
         {"a closing link left out", [](LayoutResult& r) { plan_of(r).links.erase(plan_of(r).links.begin() + 2); }},
         {"no spare strand in a closing cable",
          [](LayoutResult& r) {
              plan_of(r).cables[0].need.spare += plan_of(r).cables[3].need.spare + 1;
              plan_of(r).cables[3].need.spare = -1;
          }},
         {"a port too few at the hub", [](LayoutResult& r) { plan_of(r).hub_ports -= 1; }},
         {"a worst cut that takes fewer", [](LayoutResult& r) { r.worst_cut.lost.pop_back(); }},
         {"a chain", [](LayoutResult& r) { r.layout = plan_of(r).layout = LayoutKind::daisy_chain; }},
         {"another layout", [](LayoutResult& r) { r.layout = plan_of(r).layout = LayoutKind::home_runs; }}});
    Scenario scenario = crossroads::site();
    const LayoutResult sound = good(scenario, crossroads::rings());
    REQUIRE(sound.plan->cables[3].id == "closing-barn");
    CHECK(sound.worst_cut.what == "segment drive");
    CHECK(sound.worst_cut.lost.size() == 3);
    scenario.rules.hop_limit = 1;
    CHECK(!violations(scenario, sound).empty());
}

TEST_CASE("a ring that goes there and back one way is noticed, save where the map has no other") {
    Scenario scenario = crossroads::site();
    RoutedLayout routed = crossroads::rings();
    routed.closings[1].steps = {{crossroads::drive, 0}, {crossroads::avenue, 0}, {crossroads::path, 2}};
    const LayoutResult there_and_back = good(scenario, routed);
    CHECK(joined(violations(scenario, there_and_back)) ==
          "A cut of segment avenue takes down building lodge, which the map gives another way.\n"
          "A cut of segment path takes down building lodge, which the map gives another way.\n");
    scenario.segments[crossroads::road].ban = "the road is new";
    const std::string without_road = joined(violations(scenario, there_and_back));
    CHECK(without_road.find("A cut of segment avenue") == std::string::npos);
    CHECK(without_road.find("A cut of segment path") == std::string::npos);
}

TEST_CASE("gear without the ports or the power is noticed") {
    const Scenario scenario = crossroads::site();
    const LayoutResult sound = good(scenario, crossroads::chains());
    Scenario other = scenario;
    other.catalogue.building_gear[0].optic_ports = 2;
    CHECK(!violations(other, sound).empty());
    other = scenario;
    other.catalogue.building_gear[0].poe_budget_w = 20;
    CHECK(!violations(other, sound).empty());
    other = scenario;
    other.catalogue.building_gear[0].copper_ports = 1;
    CHECK(!violations(other, sound).empty());
    other = scenario;
    other.catalogue.hub_gear[0].optic_ports = 1;
    CHECK(!violations(other, sound).empty());
}

TEST_CASE("every line of the bill is needed, once, at its amount, its quantity and its category") {
    const Scenario scenario = crossroads::site();
    for (const RoutedLayout& routed :
         {crossroads::home_runs(), crossroads::trunk(), crossroads::chains(), crossroads::rings()}) {
        const LayoutResult sound = good(scenario, routed);
        for (std::size_t i = 0; i < sound.bill.lines.size(); ++i) {
            const std::string name = sound.bill.lines[i].item + " for " + sound.bill.lines[i].cause_id;
            const auto noticed = [&](const char* how, const Damage& damage) {
                LayoutResult broken = sound;
                damage(broken);
                CHECK_MESSAGE(!violations(scenario, broken).empty(), "not noticed: ", how, " ", name);
                broken.total = broken.bill.total();
                broken.gap =
                    1.0 - static_cast<double>(broken.bound.minor()) / static_cast<double>(broken.total.minor());
                CHECK_MESSAGE(!violations(scenario, broken).empty(), "not noticed with the total changed too: ", how,
                              " ", name);
            };
            if (sound.bill.lines[i].amount == Money()) continue;
            noticed("left out", [i](LayoutResult& r) {
                r.bill.lines.erase(r.bill.lines.begin() + static_cast<std::ptrdiff_t>(i));
            });
            noticed("twice", [i](LayoutResult& r) { r.bill.lines.push_back(r.bill.lines[i]); });
            noticed("a tenth dearer", [i](LayoutResult& r) {
                r.bill.lines[i].amount += Money::from_minor(10 + r.bill.lines[i].amount.minor() / 10);
            });
        }
    }
}

TEST_CASE("a cent too much on a trench, on a cable or on the total is noticed") {
    must_all_be_noticed(
        crossroads::site(), crossroads::home_runs(),
        {{"the total", [](LayoutResult& r) { r.total += Money::from_minor(1); }},
         {"a trench",
          [](LayoutResult& r) {
              r.bill.lines.front().amount += Money::from_minor(1);
              r.total += Money::from_minor(1);
          }},
         {"tax",
          [](LayoutResult& r) {
              r.bill.lines.back().amount += Money::from_minor(1);
              r.total += Money::from_minor(1);
          }},
         {"a cent from one trench to the next",
          [](LayoutResult& r) {
              r.bill.lines[0].amount += Money::from_minor(1);
              r.bill.lines[1].amount += Money::from_minor(-1);
          }},
         {"another category", [](LayoutResult& r) { r.bill.lines.front().category = Category::testing; }},
         {"an hour of labour", [](LayoutResult& r) { r.bill.lines.front().labour += WorkTime::from_hours(1); }},
         {"another segment", [](LayoutResult& r) { r.bill.lines.front().cause_id = "wires"; }}});
}

TEST_CASE("damage to bound, gap, metres, losses and the worst cut is noticed") {
    must_all_be_noticed(
        crossroads::site(), crossroads::trunk(),
        {{"a bound above the total",
          [](LayoutResult& r) {
              r.bound = r.total + Money::from_minor(1);
              r.gap = -1.0 / static_cast<double>(r.total.minor());
          }},
         {"another gap", [](LayoutResult& r) { r.gap += 0.001; }},
         {"a gap that is no number", [](LayoutResult& r) { r.gap = std::nan(""); }},
         {"trench metres", [](LayoutResult& r) { r.trench += one_millimetre; }},
         {"metres reused", [](LayoutResult& r) { r.reused += one_millimetre; }},
         {"metres moved between grounds",
          [](LayoutResult& r) {
              r.trench_by_ground["grass"] += one_millimetre;
              r.trench_by_ground["pole line"] = r.trench_by_ground["pole line"] - one_millimetre;
          }},
         {"metres by method", [](LayoutResult& r) { r.trench_by_method.begin()->second += one_millimetre; }},
         {"cable metres", [](LayoutResult& r) { r.cable_by_strands.begin()->second.ordered += one_millimetre; }},
         {"a cable size left out", [](LayoutResult& r) { r.cable_by_strands.erase(r.cable_by_strands.begin()); }},
         {"a budget left out", [](LayoutResult& r) { r.link_budgets.pop_back(); }},
         {"a loss", [](LayoutResult& r) { r.link_budgets[0].to_hub.loss_db += 0.01; }},
         {"a limit", [](LayoutResult& r) { r.link_budgets[0].to_building.limit_db += 0.01; }},
         {"a margin", [](LayoutResult& r) { r.link_budgets[0].to_building.margin_db += 0.01; }},
         {"the worst margin", [](LayoutResult& r) { *r.worst_margin_db += 0.01; }},
         {"no worst margin", [](LayoutResult& r) { r.worst_margin_db.reset(); }},
         {"a building that survives the cut", [](LayoutResult& r) { r.worst_cut.lost.pop_back(); }},
         {"an error among the findings", [](LayoutResult& r) {
              r.findings.push_back({"hub-ports", FindingSeverity::error, "hub", "", 1, 0, ""});
          }}});
}

}  // namespace spadework
