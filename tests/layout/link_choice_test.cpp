#include "layout/link_choice.hpp"

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

GlassPath glass(double metres) {
    return {Length::from_metres(metres), 2, 0};
}

constexpr auto one_gigabit = BitRate::from_megabits(1000);
constexpr auto ten_gigabit = BitRate::from_megabits(10000);

}  // namespace

TEST_CASE("the cheapest optic is the cheapest that runs the rate over the glass, whatever its nominal rate") {
    Scenario site = drawing::bare_site();
    CHECK(cheapest_optic(site, one_gigabit, glass(100)) == 0);
    CHECK(cheapest_optic(site, ten_gigabit, glass(100)) == 1);
    site.catalogue.optics[1].price_per_end = UnitPrice::from_minor(100);
    CHECK(cheapest_optic(site, one_gigabit, glass(100)) == 1);
}

TEST_CASE("reach is a limit below, at and above which an optic does, does and does not serve") {
    Scenario site = drawing::bare_site();
    site.catalogue.optics = {drawing::optic("short", 1000, 500, 900), drawing::optic("long", 1000, 5000, 2000)};
    CHECK(cheapest_optic(site, one_gigabit, glass(499.999)) == 0);
    CHECK(cheapest_optic(site, one_gigabit, glass(500)) == 0);
    CHECK(cheapest_optic(site, one_gigabit, glass(500.001)) == 1);
    CHECK_FALSE(cheapest_optic(site, one_gigabit, glass(5000.001)));
    CHECK(least_optic(site, one_gigabit, Length::from_metres(500)) == 0);
    CHECK(least_optic(site, one_gigabit, Length::from_metres(500.001)) == 1);
    CHECK_FALSE(least_optic(site, one_gigabit, Length::from_metres(5000.001)));
}

TEST_CASE("the least length of an optic is a limit as well, but not for a bound") {
    Scenario site = drawing::bare_site();
    site.catalogue.optics = {drawing::optic("far", 1000, 40000, 900)};
    site.catalogue.optics[0].least_length = Length::from_metres(50);
    CHECK_FALSE(cheapest_optic(site, one_gigabit, glass(49.999)));
    CHECK(cheapest_optic(site, one_gigabit, glass(50)) == 0);
    CHECK(least_optic(site, one_gigabit, Length()) == 0);
}

TEST_CASE("too many mated pairs rule an optic out where its loss limit says so") {
    Scenario site = drawing::bare_site();
    site.catalogue.optics = {drawing::optic("lx", 1000, 10000, 900)};
    // Limit 10.5 dB: 1 km at 0.4 dB/km leaves 10.1 dB, which 20 pairs at 0.5 dB pass and 21 do not.
    CHECK(cheapest_optic(site, one_gigabit, {Length::from_metres(1000), 20, 0}) == 0);
    CHECK_FALSE(cheapest_optic(site, one_gigabit, {Length::from_metres(1000), 21, 0}));
    CHECK(least_optic(site, one_gigabit, Length::from_metres(1000)) == 0);
}

TEST_CASE("only optics of the strand use the rules ask for count") {
    Scenario site = drawing::bare_site();
    site.rules.strand_use = StrandUse::bidirectional;
    CHECK_FALSE(cheapest_optic(site, one_gigabit, glass(100)));
    CHECK(why_no_optic(site, one_gigabit, glass(100)) == "no bidirectional optic in the catalogue runs 1G");
    site.catalogue.optics[1].strand_use = StrandUse::bidirectional;
    CHECK(cheapest_optic(site, one_gigabit, glass(100)) == 1);
}

TEST_CASE("the reason names what is missing: the rate, the reach, or the loss") {
    Scenario site = drawing::bare_site();
    CHECK(why_no_optic(site, BitRate::from_megabits(25000), glass(10)) == "no duplex optic in the catalogue runs 25G");
    CHECK(why_no_optic(site, one_gigabit, glass(12345)) ==
          "12.345 km of glass is beyond the longest reach of 10.000 km that the catalogue has at 1G");
    const std::string loss = why_no_optic(site, one_gigabit, {Length::from_metres(100), 60, 0});
    CHECK(loss.find("60 mated pairs") != std::string::npos);
}

TEST_CASE("among optics of one price the earlier is taken") {
    Scenario site = drawing::bare_site();
    site.catalogue.optics = {drawing::optic("a", 1000, 500, 900), drawing::optic("b", 1000, 5000, 900)};
    CHECK(cheapest_optic(site, one_gigabit, glass(100)) == 0);
}

}  // namespace spadework
