#include "checks/next_rate.hpp"

#include <doctest/doctest.h>

#include "catalogue/standard_optics.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

using small_site::megabits;
using small_site::metres;

/// The next rate of the barn's link over so much glass through so many mated pairs.
NextRate over(const Scenario& site, double length, int pairs = 2) {
    Plan plan = small_site::home_runs(site);
    plan.links[0].glass = metres(length);
    plan.links[0].mated_pairs = pairs;
    return next_rates(site, plan).front();
}

OpticProduct named(const char* id, const char* standard) {
    OpticProduct optic = *standard_optic(standard);
    optic.id = id;
    return optic;
}

}  // namespace

TEST_CASE("a gigabit link's next rate is 10G, by the standard optics where the catalogue has none") {
    const NextRate next = over(small_site::site(), 1000);
    CHECK(next.rate == megabits(10000));
    CHECK(next.optic == "10GBASE-LR");
    CHECK_FALSE(next.in_catalogue);
    CHECK(next.passes);
    // 6.2 dB less 0.4 dB of fibre and two pairs.
    CHECK(next.margin_db == doctest::Approx(6.2 - 0.4 - 1.5));
    CHECK(next.limit.empty());
}

TEST_CASE("the catalogue's own optic of the rate counts, even where the standard one would do better") {
    Scenario site = small_site::site();
    site.catalogue.optics.push_back(named("my-10g", "10GBASE-LR"));
    site.catalogue.optics.back().reach = metres(500);
    const NextRate next = over(site, 1000);
    CHECK(next.in_catalogue);
    CHECK(next.optic == "my-10g");
    CHECK_FALSE(next.passes);
    CHECK(next.limit == "reach");
    CHECK(next.short_by == doctest::Approx(500));
    CHECK(next.unit == "m");
}

TEST_CASE("the limit that fails is told with how much is missing: loss first fails at 6.2 dB") {
    // 8 km and 5 pairs lose 3.2 + 3.75 = 6.95 dB; ER of 30 km is overloaded there.
    const NextRate next = over(small_site::site(), 8000, 5);
    CHECK(next.rate == megabits(10000));
    CHECK_FALSE(next.passes);
    CHECK(next.optic == "10GBASE-LR");
    CHECK(next.limit == "loss");
    CHECK(next.short_by == doctest::Approx(0.75));
    CHECK(next.unit == "dB");
}

TEST_CASE("an optic that is only overloaded passes behind an attenuator of the catalogue, and fails without one") {
    Scenario site = small_site::site();
    site.catalogue.optics.push_back(named("er", "10GBASE-ER"));
    const NextRate bare = over(site, 1000);
    CHECK_FALSE(bare.passes);
    CHECK(bare.limit == "overload");
    CHECK(bare.short_by == doctest::Approx(5 - 0.3));
    site.catalogue.attenuators = {{"att-5", "att-5", 5, {}}};
    const NextRate behind = over(site, 1000);
    CHECK(behind.passes);
    CHECK(behind.attenuated);
    CHECK(behind.margin_db == doctest::Approx(11.1 - 0.3 - 1.5 - 5));
}

TEST_CASE("rates climb step by step: 10G to 25G, and beyond 25G nothing is known") {
    Scenario site = small_site::site();
    site.catalogue.optics = {named("lr", "10GBASE-LR")};
    Plan plan = small_site::home_runs(site);
    plan.links[0].rate = megabits(10000);
    CHECK(next_rates(site, plan).front().rate == megabits(25000));
    CHECK(next_rates(site, plan).front().optic == "25GBASE-LR");
    plan.links[0].rate = megabits(25000);
    CHECK_FALSE(next_rates(site, plan).front().rate.has_value());
}

TEST_CASE("a one-strand link asks for one-strand optics: 1G follows 100M, and no standard one is known beyond 1G") {
    Scenario site = small_site::site();
    site.catalogue.optics = {named("bx", "100BASE-BX10")};
    Plan plan = small_site::home_runs(site);
    plan.links[0].rate = megabits(100);
    CHECK(next_rates(site, plan).front().optic == "1000BASE-BX10");
    site.catalogue.optics = {named("bx", "1000BASE-BX10")};
    plan.links[0].rate = megabits(1000);
    CHECK_FALSE(next_rates(site, plan).front().rate.has_value());
}

TEST_CASE("there is one answer for each link, in order") {
    const Scenario site = small_site::site();
    const auto rates = next_rates(site, small_site::home_runs(site));
    REQUIRE(rates.size() == 2);
    CHECK(rates[0].link == 0);
    CHECK(rates[1].link == 1);
}

}  // namespace spadework
