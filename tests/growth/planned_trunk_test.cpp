#include "growth/planned_trunk.hpp"

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {

using namespace small_site;

TEST_CASE("the run of a trunk has its length, its end and its ground") {
    const Scenario site = small_site::site();
    const auto run = run_of_trunk(site, trunk(site));
    REQUIRE(run);
    CHECK(run->planned);
    CHECK(run->place == "gate");
    CHECK(run->length == metres(100));
    REQUIRE(run->stretches.size() == 1);
    CHECK(run->stretches.front().ground == "grass");
    CHECK(run->stretches.front().dug_now);
}

TEST_CASE("plans without one enclosure for all have no trunk to study") {
    const Scenario site = small_site::site();
    CHECK_FALSE(run_of_trunk(site, home_runs(site)));
    CHECK_FALSE(run_of_trunk(site, chain(site)));
    Plan some = trunk(site);
    some.enclosures.front().serves.pop_back();
    CHECK_FALSE(run_of_trunk(site, some));
}

TEST_CASE("a site's trunk is planned where there can be one, and is a metre where not") {
    Scenario site = small_site::site();
    CHECK(trunk_to_study(site).planned);
    for (Place& place : site.places)
        place.enclosure_allowed = false;
    CHECK_FALSE(trunk_to_study(site).planned);
}

}  // namespace spadework
