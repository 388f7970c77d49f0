#include "growth/built_from_file.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "comparison/comparison.hpp"
#include "plan_file/making.hpp"
#include "plan_file/plan_on_site.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

using namespace small_site;
using plan_file::PlanFile;

PlanFile file_of(const Scenario& site, const Plan& plan) {
    LayoutResult result;
    result.layout = plan.layout;
    result.plan = plan;
    result.strand_map = map_strands(site, plan, tia_598_order());
    result.bill = price(site, plan);
    result.total = result.bill.total();
    return plan_file::plan_file_of(site, result);
}

Scenario without(Scenario site, const std::string& building) {
    std::erase_if(site.buildings, [&](const Building& one) { return one.id == building; });
    return site;
}

bool says(const std::vector<std::string>& texts, const std::string& part) {
    return std::any_of(texts.begin(), texts.end(),
                       [&](const std::string& text) { return text.find(part) != std::string::npos; });
}

}  // namespace

TEST_CASE("a building that is gone frees its strands: they are spares, and its cable stays") {
    const Scenario site = small_site::site();
    const PlanFile file = file_of(site, trunk(site));
    const BuiltFromFile built = built_from_file(without(site, "mill"), file);
    REQUIRE(built.built);
    CHECK(built.gone == std::vector<std::string>{"mill"});
    const Plan& plan = built.built->plan;
    CHECK(plan.links.size() == 1);
    CHECK(plan.cables.size() == 3);
    CHECK(plan.hub_ports == 1);
    CHECK(plan.cables[0].need.in_use == 2);
    CHECK(plan.cables[0].need.spare == 4);
    CHECK(plan.enclosures[0].need.total() == 8);
    const auto drop = std::find_if(plan.cables.begin(), plan.cables.end(),
                                   [](const PlannedCable& cable) { return cable.id == "drop-mill"; });
    REQUIRE(drop != plan.cables.end());
    CHECK_FALSE(drop->building);
    CHECK(drop->need.in_use == 0);
    const Extension extension = extend(without(site, "mill"), *built.built);
    CHECK(extension.violations == std::vector<std::string>{});
    CHECK(extension.untouched.links == 1);
    CHECK(extension.untouched.freed == 4);
}

TEST_CASE("what is missing is told in one pass, with the names of both sites") {
    const Scenario site = small_site::site();
    const PlanFile file = file_of(site, trunk(site));
    Scenario other = site;
    other.name = "Another site";
    other.catalogue.cables.erase(other.catalogue.cables.begin() + cable_12);
    other.segments[lane].id = "renamed";
    other.currency.code = "USD";
    const BuiltFromFile built = built_from_file(other, file);
    CHECK_FALSE(built.built);
    CHECK(says(built.problems, "of the site 'Small site', this site is 'Another site'"));
    CHECK(says(built.problems, "no cable product 'cable-12'"));
    CHECK(says(built.problems, "no segment 'lane'"));
    CHECK(says(built.problems, "USD"));
}

TEST_CASE("a site that was given another name is a note where all else is found") {
    Scenario site = small_site::site();
    const PlanFile file = file_of(site, trunk(site));
    site.name = "Small site, phase two";
    const BuiltFromFile built = built_from_file(site, file);
    CHECK(built.built);
    CHECK(says(built.notes, "phase two"));
}

TEST_CASE("a chain does not lose a building that others hang behind, and may lose its last") {
    const Scenario site = small_site::site();
    const PlanFile file = file_of(site, chain(site));
    CHECK(says(built_from_file(without(site, "barn"), file).problems, "others are linked through its gear"));
    const BuiltFromFile shorter = built_from_file(without(site, "mill"), file);
    REQUIRE(shorter.built);
    CHECK(shorter.built->plan.chains == std::vector<std::vector<BuildingIndex>>{{0}});
}

TEST_CASE("other strands a link or other ends of cables are contradictions") {
    Scenario site = small_site::site();
    const PlanFile file = file_of(site, trunk(site));
    site.rules.strand_use = StrandUse::bidirectional;
    site.rules.termination = Termination::spliced;
    const BuiltFromFile built = built_from_file(site, file);
    CHECK(says(built.problems, "use 2 strands"));
    CHECK(says(built.problems, "spliced"));
    site.rules.either_strand_use = true;
    CHECK(site_to_extend(site, file).rules.strand_use == StrandUse::duplex);
}

TEST_CASE("the extended file has the costs of both, and extending it again adds nothing") {
    Scenario site = small_site::site();
    const PlanFile before = file_of(without(site, "mill"), [&] {
        Plan plan = home_runs(site);
        plan.cables.pop_back();
        plan.links.pop_back();
        plan.building_gear.pop_back();
        plan.hub_ports = 1;
        plan.trenches = {{drive, 0}, {path, 0}};
        return plan;
    }());
    const BuiltFromFile built = built_from_file(site, before);
    REQUIRE(built.built);
    const Extension extension = extend(site, *built.built);
    REQUIRE(extension.feasible);
    const PlanFile after = extended_file(site, before, extension);
    CHECK(after.costs.total == before.costs.total + extension.total);
    const BuiltFromFile again = built_from_file(site, after);
    REQUIRE(again.built);
    const Extension nothing = extend(site, *again.built);
    CHECK(nothing.total == Money());
    CHECK(extended_file(site, after, nothing).costs.total == after.costs.total);
    CHECK(nothing.untouched.links == 2);
}

}  // namespace spadework
