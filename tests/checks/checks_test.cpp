#include "checks/checks.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "catalogue/standard_optics.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

using small_site::barn;
using small_site::drive;
using small_site::lane;
using small_site::metres;
using small_site::mill;
using small_site::path;

constexpr int switch_8 = 1;

/// How many findings of a kind there are.
int count_of(const Findings& findings, const std::string& kind) {
    return static_cast<int>(
        std::count_if(findings.begin(), findings.end(), [&kind](const Finding& f) { return f.kind == kind; }));
}

/// The only finding of that kind.
Finding only(const Findings& findings, const std::string& kind) {
    REQUIRE_MESSAGE(count_of(findings, kind) == 1, kind);
    return *std::find_if(findings.begin(), findings.end(), [&kind](const Finding& f) { return f.kind == kind; });
}

void check_figures(const Finding& finding, double measured, double limit, const std::string& unit) {
    CHECK(finding.measured == doctest::Approx(measured).epsilon(1e-12));
    CHECK(finding.limit == doctest::Approx(limit).epsilon(1e-12));
    CHECK(finding.unit == unit);
    CHECK_FALSE(finding.what.empty());
}

/// The barn's link alone, at the given length of glass.
Findings with_glass(const Scenario& site, double length) {
    Plan plan = small_site::home_runs(site);
    plan.links[0].glass = metres(length);
    return check(site, plan);
}

}  // namespace

TEST_CASE("a sound plan of each layout has no finding") {
    const Scenario site = small_site::site();
    CHECK(check(site, small_site::home_runs(site)).empty());
    CHECK(check(site, small_site::trunk(site)).empty());
    CHECK(check(site, Plan()).empty());
}

TEST_CASE("a link's budget sums fibre, pairs, splices and margin in each direction and subtracts them from its limit") {
    Scenario site = small_site::site();
    site.rules.loss.spare_margin_db = 1;
    site.catalogue.optics[0].to_building.wavelength_nm = 1550;
    PlannedLink link;
    link.glass = metres(2000);
    link.mated_pairs = 3;
    link.splices = 2;
    const LinkBudget budget = link_budget(site, link);
    // 0.6 or 0.8 dB of fibre, 3 x 0.75, 2 x 0.3, 1.
    CHECK(budget.to_building.loss_db == doctest::Approx(4.45));
    CHECK(budget.to_hub.loss_db == doctest::Approx(4.65));
    CHECK(budget.to_hub.limit_db == doctest::Approx(6.0));
    CHECK(budget.to_hub.margin_db == doctest::Approx(1.35));
    CHECK(budget.to_hub.least_loss_db == doctest::Approx(0.8));
    CHECK(budget.to_hub.overload_excess_db == doctest::Approx(-0.8));
    CHECK(&budget.worse() == &budget.to_hub);
}

TEST_CASE("budgets come link by link, each naming its link") {
    const Scenario site = small_site::site();
    const auto budgets = link_budgets(site, small_site::trunk(site));
    REQUIRE(budgets.size() == 2);
    CHECK(budgets[0].link == 0);
    CHECK(budgets[1].link == 1);
}

TEST_CASE("a link that loses as much as it may passes; a centimetre's loss more is an error in each direction") {
    Scenario site = small_site::site();
    // 6.0 dB less 2 x 0.75 dB leave 4.5 dB for 11.25 km at 0.4 dB/km.
    site.catalogue.optics[0].reach = metres(20000);
    CHECK(count_of(with_glass(site, 11249.99), "link-loss") == 0);
    CHECK(count_of(with_glass(site, 11250), "link-loss") == 0);
    const Findings findings = with_glass(site, 11250.01);
    CHECK(count_of(findings, "link-loss") == 2);
    CHECK(findings.front().where == "building barn, link 1");
    check_figures(findings.front(), 6.000004, 6.0, "dB");
    CHECK(has_errors(findings));
}

TEST_CASE("a 5 km link is too long for an optic of 2 km and right for one of 10 km") {
    Scenario site = small_site::site();
    CHECK(with_glass(site, 5000).empty());
    site.catalogue.optics[0].reach = metres(2000);
    CHECK(with_glass(site, 2000).empty());
    check_figures(only(with_glass(site, 2000.001), "link-reach"), 2000.001, 2000, "m");
    check_figures(only(with_glass(site, 5000), "link-reach"), 5000, 2000, "m");
}

TEST_CASE("glass shorter than the optic's least length is an error") {
    Scenario site = small_site::site();
    CHECK(with_glass(site, 0.5).empty());
    check_figures(only(with_glass(site, 0.499), "link-too-short"), 0.499, 0.5, "m");
}

TEST_CASE("a short long-reach link is overloaded in both directions (10GBASE-ER, RULE-3, values from memory)") {
    Scenario site = small_site::site();
    site.catalogue.optics[0] = *standard_optic("10GBASE-ER");
    // 4.0 - 0.3 x 10 km - (-1.0) = 2 dB too strong; 5 dB take 16.667 km.
    const Findings findings = with_glass(site, 10000);
    CHECK(count_of(findings, "link-overload") == 4);  // the mill's link, too
    const auto of_barn = std::find_if(findings.begin(), findings.end(), [](const Finding& finding) {
        return finding.kind == "link-overload" && finding.where == "building barn, link 1";
    });
    REQUIRE(of_barn != findings.end());
    check_figures(*of_barn, 2.0, 0, "dB");
    CHECK(count_of(with_glass(site, 16667), "link-overload") == 2);
}

TEST_CASE("an optic slower than its link is an error, a faster one is not") {
    const Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    plan.links[0].rate = small_site::megabits(1001);
    check_figures(only(check(site, plan), "link-rate"), 1000, 1001, "Mbit/s");
    plan.links[0].rate = small_site::megabits(100);
    CHECK(check(site, plan).empty());
}

TEST_CASE("links without a patch cord in the catalogue are noted once") {
    Scenario site = small_site::site();
    site.catalogue.patch_cords.clear();
    const Findings findings = check(site, small_site::home_runs(site));
    CHECK(only(findings, "patch-cord").severity == FindingSeverity::note);
    CHECK_FALSE(has_errors(findings));
}

TEST_CASE("a power budget of exactly the demand passes, one watt less is an error") {
    Scenario site = small_site::site();
    // The barn's three cameras of 12 W are class 3: 46.2 W at the supplying side.
    site.catalogue.building_gear[switch_8].poe_budget_w = 46.2;
    CHECK(check(site, small_site::home_runs(site)).empty());
    site.catalogue.building_gear[switch_8].poe_budget_w = 45.2;
    const Finding finding = only(check(site, small_site::home_runs(site)), "poe-budget");
    CHECK(finding.where == "building barn");
    CHECK(finding.severity == FindingSeverity::error);
    check_figures(finding, 46.2, 45.2, "W");
}

TEST_CASE("a device that no class of PoE can feed is an error") {
    Scenario site = small_site::site();
    site.buildings[mill].devices = {{"heater", 1, 71.4}};
    CHECK(only(check(site, small_site::home_runs(site)), "poe-class").where == "building mill");
    site.buildings[mill].devices = {{"heater", 1, 71.3}};
    CHECK(check(site, small_site::home_runs(site)).empty());
}

TEST_CASE("as many devices as copper ports pass, one more is an error, a second switch costs a port at each end") {
    Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    site.buildings[mill].devices = {{"phone", 8, 0}};
    CHECK(check(site, plan).empty());
    site.buildings[mill].devices = {{"phone", 9, 0}};
    check_figures(only(check(site, plan), "copper-ports"), 9, 8, "ports");
    plan.building_gear[mill].pieces.count = 2;
    CHECK(check(site, plan).empty());
    site.buildings[mill].devices = {{"phone", 15, 0}};
    check_figures(only(check(site, plan), "copper-ports"), 15, 14, "ports");
}

TEST_CASE("spare copper ports count as needed") {
    Scenario site = small_site::site();
    site.buildings[mill].devices = {{"phone", 6, 0}};
    site.rules.spare_copper_ports = 2;
    CHECK(check(site, small_site::home_runs(site)).empty());
    site.rules.spare_copper_ports = 3;
    check_figures(only(check(site, small_site::home_runs(site)), "copper-ports"), 9, 8, "ports");
}

TEST_CASE("in a chain the gear takes a port for the link in and one for the link on") {
    Scenario site = small_site::site();
    const Plan plan = small_site::chain(site);
    site.catalogue.building_gear[switch_8].optic_ports = 2;
    CHECK(count_of(check(site, plan), "optic-ports") == 0);
    site.catalogue.building_gear[switch_8].optic_ports = 1;
    const Finding finding = only(check(site, plan), "optic-ports");
    CHECK(finding.where == "building barn");
    check_figures(finding, 2, 1, "ports");
}

TEST_CASE("gear slower than a link that ends or begins there is an error") {
    Scenario site = small_site::site();
    site.catalogue.optics[0].rate = small_site::megabits(10000);
    Plan plan = small_site::chain(site);
    plan.links[1].rate = small_site::megabits(10000);
    const Findings findings = check(site, plan);
    CHECK(count_of(findings, "gear-rate") == 2);
    check_figures(findings.front(), 1000, 10000, "Mbit/s");
    site.catalogue.building_gear[switch_8].fastest_rate = small_site::megabits(10000);
    CHECK(count_of(check(site, plan), "gear-rate") == 0);
}

TEST_CASE("a building whose links end at no gear is an error") {
    const Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    plan.building_gear.pop_back();
    CHECK(only(check(site, plan), "gear-missing").where == "building mill");
}

TEST_CASE("a hub with exactly the ports passes, a full one is an error, and free ports count") {
    Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    plan.hub_ports = 8;
    CHECK(check(site, plan).empty());
    plan.hub_ports = 9;
    const Finding finding = only(check(site, plan), "hub-ports");
    CHECK(finding.where == "hub");
    check_figures(finding, 9, 8, "ports");
    site.hub.free_optic_ports = 1;
    CHECK(check(site, plan).empty());
}

TEST_CASE("a duct takes as many cables as it has room for; one more is an error") {
    Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    site.segments[drive].duct_room = 2;
    for (PlannedCable& cable : plan.cables)
        cable.steps[0].way = 1;
    CHECK(check(site, plan).empty());
    site.segments[drive].duct_room = 1;
    const Finding finding = only(check(site, plan), "duct-full");
    CHECK(finding.where == "segment drive");
    check_figures(finding, 2, 1, "cables");
}

TEST_CASE("cables in a trench of the same segment do not fill its duct") {
    Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    site.segments[drive].duct_room = 1;
    plan.cables[0].steps[0].way = 1;
    CHECK(check(site, plan).empty());
}

TEST_CASE("a cable with exactly the strands needed passes, one strand short is an error") {
    const Scenario site = small_site::site();
    Plan plan = small_site::trunk(site);
    plan.enclosures[0].products = {{1, 1}};
    plan.cables[0].need = {8, 2, 2};
    CHECK(check(site, plan).empty());
    plan.cables[0].need = {8, 2, 3};
    const Finding finding = only(check(site, plan), "strands-short");
    CHECK(finding.where == "cable trunk-1");
    check_figures(finding, 13, 12, "strands");
}

TEST_CASE("an enclosure with an adapter too few is an error") {
    const Scenario site = small_site::site();
    Plan plan = small_site::trunk(site);
    plan.enclosures[0].need = {4, 2, 2};
    CHECK(check(site, plan).empty());
    plan.enclosures[0].need = {4, 2, 3};
    const Finding finding = only(check(site, plan), "enclosure-adapters");
    CHECK(finding.where == "enclosure at gate");
    check_figures(finding, 9, 8, "adapters");
    plan.enclosures[0].products = {{0, 2}};
    CHECK(check(site, plan).empty());
}

TEST_CASE("an enclosure where none may stand is an error that says why") {
    Scenario site = small_site::site();
    site.places[small_site::gate].enclosure_allowed = false;
    site.places[small_site::gate].enclosure_reason = "floods in spring";
    const Finding finding = only(check(site, small_site::trunk(site)), "enclosure-place");
    CHECK(finding.what.find("floods in spring") != std::string::npos);
    CHECK(finding.severity == FindingSeverity::error);
}

TEST_CASE("a cable ordered a millimetre short is an error") {
    const Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    plan.cables[0].lengths.ordered = plan.cables[0].lengths.with_slack;
    CHECK(check(site, plan).empty());
    plan.cables[0].lengths.ordered = plan.cables[0].lengths.with_slack - Length::from_millimetres(1);
    check_figures(only(check(site, plan), "ordered-short"), 139.999, 140, "m");
}

TEST_CASE("joints are noted") {
    const Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    plan.cables[0].lengths.joints = 2;
    const Finding finding = only(check(site, plan), "joints");
    CHECK(finding.severity == FindingSeverity::note);
    check_figures(finding, 2, 0, "joints");
}

TEST_CASE("a chain of as many buildings as the rules allow passes, one more is an error") {
    Scenario site = small_site::site();
    CHECK(count_of(check(site, small_site::chain(site)), "hop-limit") == 0);
    site.rules.hop_limit = 1;
    const Finding finding = only(check(site, small_site::chain(site)), "hop-limit");
    CHECK(finding.where == "chain to mill");
    CHECK(finding.severity == FindingSeverity::error);
    check_figures(finding, 2, 1, "buildings");
}

TEST_CASE("buildings that ask for more than their first hop carries are warned of, not refused") {
    Scenario site = small_site::site();
    Plan plan = small_site::chain(site);
    const Findings shared = check(site, plan);
    CHECK(only(shared, "shared-rate").severity == FindingSeverity::warning);
    check_figures(only(shared, "shared-rate"), 2000, 1000, "Mbit/s");
    CHECK_FALSE(has_errors(shared));
    for (Building& building : site.buildings)
        building.links = {{small_site::megabits(500), 1}};
    CHECK(check(site, plan).empty());
}

TEST_CASE("errors stand before warnings and warnings before notes, then by kind and place") {
    Scenario site = small_site::site();
    site.catalogue.patch_cords.clear();
    site.rules.hop_limit = 1;
    Plan plan = small_site::chain(site);
    plan.building_gear.clear();
    const Findings findings = check(site, plan);
    REQUIRE(findings.size() == 5);
    CHECK(findings[0].kind == "gear-missing");
    CHECK(findings[0].where == "building barn");
    CHECK(findings[1].where == "building mill");
    CHECK(findings[2].kind == "hop-limit");
    CHECK(findings[3].kind == "shared-rate");
    CHECK(findings[4].kind == "patch-cord");
}

TEST_CASE("the worst cut is the segment that most buildings hang on") {
    const Scenario site = small_site::site();
    for (const Plan& plan : {small_site::home_runs(site), small_site::trunk(site)}) {
        const SingleCut cut = worst_cut(site, plan);
        CHECK(cut.what == "segment drive");
        CHECK(cut.lost == std::vector<BuildingIndex>{barn, mill});
    }
}

TEST_CASE("in a chain the loss of a hop takes down everything behind it") {
    const Scenario site = small_site::site();
    Plan plan = small_site::chain(site);
    // The first hop comes to the barn by a segment of its own: cutting it takes the mill down, too.
    plan.cables[0].steps = {{path, 0}};
    plan.cables[1].steps = {{lane, 0}};
    const SingleCut cut = worst_cut(site, plan);
    CHECK(cut.what == "segment path");
    CHECK(cut.lost == std::vector<BuildingIndex>{barn, mill});
    plan.cables[0].steps = {{drive, 0}};
    CHECK(worst_cut(site, plan).what == "segment drive");
}

TEST_CASE("a ring loses what lies between the hops that a cut takes, and nothing when it takes one") {
    const Scenario site = small_site::site();
    Plan plan = small_site::ring(site);
    CHECK(worst_cut(site, plan).what == "segment drive");
    CHECK(worst_cut(site, plan).lost == std::vector<BuildingIndex>{barn, mill});
    // The hop on and the closing one share the lane: the mill is between them.
    plan.cables[0].steps = {{drive, 0}};
    plan.cables[2].steps = {{lane, 0}};
    CHECK(worst_cut(site, plan).what == "segment lane");
    CHECK(worst_cut(site, plan).lost == std::vector<BuildingIndex>{mill});
    // Every hop by a segment of its own: each building has a side left, whatever is cut.
    plan.cables[1].steps = {{path, 0}};
    CHECK(worst_cut(site, plan).lost.empty());
    // A second link beside a hop, another way, keeps the hop.
    plan.cables[1].steps = {{drive, 0}};
    CHECK(worst_cut(site, plan).what == "segment drive");
    plan.cables.push_back(small_site::cable_along(site, "hop-mill-2", {{path, 0}}));
    plan.cables.back().role = CableRole::hop;
    plan.links.push_back(small_site::link_to(mill, plan, {3}));
    plan.links.back().from = barn;
    CHECK(worst_cut(site, plan).lost.empty());
}

TEST_CASE("a ring of as many buildings as the rules allow passes, one more is an error, and one side carries it all") {
    Scenario site = small_site::site();
    const Plan plan = small_site::ring(site);
    CHECK(count_of(check(site, plan), "hop-limit") == 0);
    CHECK(only(check(site, plan), "shared-rate").where == "ring to mill");
    site.rules.hop_limit = 1;
    const Finding finding = only(check(site, plan), "hop-limit");
    check_figures(finding, 2, 1, "buildings");
    CHECK(finding.where == "ring to mill");
    // A building alone in its ring has two links to the hub, of which one rests.
    Plan alone = plan;
    alone.chains = {{mill}};
    alone.links = {alone.links[2], alone.links[2]};
    alone.links[1].cables = {1};
    site.buildings[mill].links = {{BitRate::from_megabits(1000), 2}};
    check_figures(only(check(site, alone), "shared-rate"), 2000, 1000, "Mbit/s");
}

TEST_CASE("a building outside the chains counts as well") {
    const Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    plan.chains = {{barn}};
    CHECK(worst_cut(site, plan).lost == std::vector<BuildingIndex>{barn, mill});
}

TEST_CASE("a building with a second link another way survives the cut of one") {
    const Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    plan.cables.push_back(small_site::cable_along(site, "run-barn-2", {{lane, 0}}));
    plan.links.insert(plan.links.begin() + 1, small_site::link_to(barn, plan, {2}));
    const SingleCut cut = worst_cut(site, plan);
    CHECK(cut.what == "segment drive");
    CHECK(cut.lost == std::vector<BuildingIndex>{mill});
}

TEST_CASE("of equally bad cuts the first segment is named, and an empty plan loses nothing") {
    const Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    plan.cables[0].steps = {{path, 0}};
    plan.cables[1].steps = {{lane, 0}};
    CHECK(worst_cut(site, plan).what == "segment lane");
    CHECK(worst_cut(site, Plan()).lost.empty());
}

}  // namespace spadework
