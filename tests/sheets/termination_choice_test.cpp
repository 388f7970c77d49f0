#include "sheets/termination_choice.hpp"

#include <doctest/doctest.h>

#include "costing/bill.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

/// Cable by the metre and its ends, as the bill has them.
Money cable_and_ends(const Bill& bill) {
    Money sum = bill.total(Category::cable);
    for (const CostLine& line : bill.lines) {
        if (line.category == Category::cable && line.labour > WorkTime())
            sum += Money::from_minor(-line.amount.minor());
        if (line.category == Category::terminations && line.cause == CauseKind::cable) sum += line.amount;
    }
    return sum;
}

}  // namespace

TEST_CASE("the way that the plan is built costs what the bill says") {
    const Scenario site = small_site::site();
    const Plan plan = small_site::trunk(site);
    CHECK(termination_choice(site, plan).factory.cost == cable_and_ends(price(site, plan)));
}

TEST_CASE("cables sum to the whole, both ways, and every strand in use has two ends") {
    const Scenario site = small_site::site();
    const TerminationChoice choice = termination_choice(site, small_site::trunk(site));
    TerminationCost factory;
    TerminationCost spliced;
    for (const CableTermination& cable : choice.cables) {
        factory.cost += cable.factory.cost;
        factory.time += cable.factory.time;
        spliced.cost += cable.spliced.cost;
        spliced.time += cable.spliced.time;
    }
    CHECK(choice.factory.cost == factory.cost);
    CHECK(choice.spliced.time == spliced.time);
    CHECK(choice.strand_ends == 2 * (4 + 2 + 2));
}

TEST_CASE("plugging 16 strand ends at 5 minutes takes 80 minutes; splicing them takes their set-ups as well") {
    const Scenario site = small_site::site();
    const TerminationChoice choice = termination_choice(site, small_site::trunk(site));
    CHECK(choice.factory.time == WorkTime::from_minutes(80));
    CHECK(choice.spliced.time == WorkTime::from_minutes(6 * 30 + 16 * 6));
}

TEST_CASE("links whose optics would not carry the splices are named") {
    Scenario site = small_site::site();
    site.rules.loss.splice_db = 3;
    const TerminationChoice choice = termination_choice(site, small_site::home_runs(site));
    CHECK(choice.factory_fails.empty());
    CHECK(choice.spliced_fails == std::vector<std::string>{"barn", "mill"});
}

}  // namespace spadework
