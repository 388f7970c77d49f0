#include "sheets/sheet_check.hpp"

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {
namespace {

using Sentences = std::vector<std::string>;

LayoutResult result_of(const Scenario& site, const Plan& plan) {
    LayoutResult result;
    result.layout = plan.layout;
    result.bill = price(site, plan);
    result.strand_map = map_strands(site, plan, tia_598_order());
    result.plan = plan;
    return result;
}

}  // namespace

TEST_CASE("the sheets of plans as they are made hold what they promise") {
    Scenario site = small_site::site();
    for (const Termination termination : {Termination::factory, Termination::spliced}) {
        site.rules.termination = termination;
        for (const Plan& plan :
             {small_site::home_runs(site), small_site::trunk(site), small_site::chain(site), small_site::ring(site)})
            CHECK(sheet_violations(site, result_of(site, plan)) == Sentences{});
    }
}

TEST_CASE("a bill with cable that the order does not have is noticed") {
    const Scenario site = small_site::site();
    const LayoutResult right = result_of(site, small_site::trunk(site));
    for (const CostLine& line : right.bill.lines) {
        CAPTURE(line.item);
        LayoutResult twice = right;
        twice.bill.lines.push_back(line);
        const bool is_cable = line.category == Category::cable && line.labour == WorkTime();
        CHECK(sheet_violations(site, twice).empty() != is_cable);
    }
}

TEST_CASE("a cable that is ordered too short is noticed") {
    const Scenario site = small_site::site();
    LayoutResult wrong = result_of(site, small_site::trunk(site));
    PlannedCable& cable = wrong.plan->cables[1];
    cable.lengths.ordered = cable.lengths.with_slack - Length::from_millimetres(1);
    wrong.bill = price(site, *wrong.plan);
    const Sentences found = sheet_violations(site, wrong);
    REQUIRE(!found.empty());
    CHECK(found[0] == "A row of the order is 1 mm short.");
}

TEST_CASE("stretches that do not make up a cable's route are noticed") {
    const Scenario site = small_site::site();
    LayoutResult wrong = result_of(site, small_site::home_runs(site));
    wrong.plan->cables[0].lengths.route += Length::from_millimetres(1);
    CHECK(sheet_violations(site, wrong) == Sentences{"The stretches of cable run-barn do not make up its route."});
}

TEST_CASE("a strand map that a test cannot follow is noticed") {
    const Scenario site = small_site::site();
    LayoutResult wrong = result_of(site, small_site::trunk(site));
    for (MappedStrand& strand : wrong.strand_map) {
        if (strand.cable == 1 && strand.leg == 2) strand.leg = 3;
    }
    CHECK(sheet_violations(site, wrong) == Sentences{"The test of leg 2 of link 0 does not follow its strands."});
}

}  // namespace spadework
