#include "sheets/crew_hours.hpp"

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {

TEST_CASE("crew hours hold every hour of the bill, each with its trade") {
    const Scenario site = small_site::site();
    for (const Plan& plan : {small_site::home_runs(site), small_site::trunk(site), small_site::chain(site)}) {
        const Bill bill = price(site, plan);
        const CrewHours hours = crew_hours(bill, site.labour);
        CHECK(hours.total == bill.labour());
        WorkTime sum;
        for (const CrewTask& task : hours.tasks) {
            CHECK(task.trade != Trade::none);
            sum += task.time;
        }
        CHECK(sum == hours.total);
    }
}

TEST_CASE("180 m dug at 0.2 h a metre are 36 h of the groundworks crew, at 60.00 an hour") {
    const Scenario site = small_site::site();
    const CrewHours hours = crew_hours(price(site, small_site::home_runs(site)), site.labour);
    CHECK(hours.of(Trade::groundworks).hours() == doctest::Approx(36.0));
    CHECK(hours.tasks.front().amount == Money::from_minor(36 * 6000));
    CHECK(hours.of(Trade::splicer) == WorkTime());
}

TEST_CASE("splicing is the splicer's work") {
    Scenario site = small_site::site();
    site.rules.termination = Termination::spliced;
    const CrewHours hours = crew_hours(price(site, small_site::home_runs(site)), site.labour);
    // Four ends of 30 minutes' set-up and two strands of 6 minutes.
    CHECK(hours.of(Trade::splicer).hours() == doctest::Approx(4 * (0.5 + 0.2)));
}

}  // namespace spadework
