#include "layout/link_choice.hpp"

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

GlassPath glass(double metres) {
    return {Length::from_metres(metres), 2, 0};
}

/// The optic chosen, or -1.
int optic_for(const Scenario& site, BitRate rate, const GlassPath& path) {
    const auto lit = cheapest_lighting(site, rate, path);
    return lit ? lit->optic : -1;
}

constexpr auto one_gigabit = BitRate::from_megabits(1000);
constexpr auto ten_gigabit = BitRate::from_megabits(10000);

}  // namespace

TEST_CASE("the cheapest optic is the cheapest that runs the rate over the glass, whatever its nominal rate") {
    Scenario site = drawing::bare_site();
    CHECK(optic_for(site, one_gigabit, glass(100)) == 0);
    CHECK(optic_for(site, ten_gigabit, glass(100)) == 1);
    site.catalogue.optics[1].price_per_end = UnitPrice::from_minor(100);
    CHECK(optic_for(site, one_gigabit, glass(100)) == 1);
}

TEST_CASE("reach is a limit below, at and above which an optic does, does and does not serve") {
    Scenario site = drawing::bare_site();
    site.catalogue.optics = {drawing::optic("short", 1000, 500, 900), drawing::optic("long", 1000, 5000, 2000)};
    CHECK(optic_for(site, one_gigabit, glass(499.999)) == 0);
    CHECK(optic_for(site, one_gigabit, glass(500)) == 0);
    CHECK(optic_for(site, one_gigabit, glass(500.001)) == 1);
    CHECK(optic_for(site, one_gigabit, glass(5000.001)) == -1);
    CHECK(least_optic(site, one_gigabit, Length::from_metres(500)) == 0);
    CHECK(least_optic(site, one_gigabit, Length::from_metres(500.001)) == 1);
    CHECK_FALSE(least_optic(site, one_gigabit, Length::from_metres(5000.001)));
}

TEST_CASE("the least length of an optic is a limit as well, but not for a bound") {
    Scenario site = drawing::bare_site();
    site.catalogue.optics = {drawing::optic("far", 1000, 40000, 900)};
    site.catalogue.optics[0].least_length = Length::from_metres(50);
    CHECK(optic_for(site, one_gigabit, glass(49.999)) == -1);
    CHECK(optic_for(site, one_gigabit, glass(50)) == 0);
    CHECK(least_optic(site, one_gigabit, Length()) == 0);
}

TEST_CASE("too many mated pairs rule an optic out where its loss limit says so") {
    Scenario site = drawing::bare_site();
    site.catalogue.optics = {drawing::optic("lx", 1000, 10000, 900)};
    // Limit 10.5 dB: 1 km at 0.4 dB/km leaves 10.1 dB, which 20 pairs at 0.5 dB pass and 21 do not.
    CHECK(optic_for(site, one_gigabit, {Length::from_metres(1000), 20, 0}) == 0);
    CHECK(optic_for(site, one_gigabit, {Length::from_metres(1000), 21, 0}) == -1);
    CHECK(least_optic(site, one_gigabit, Length::from_metres(1000)) == 0);
}

TEST_CASE("only optics of the strand use the rules ask for count") {
    Scenario site = drawing::bare_site();
    site.rules.strand_use = StrandUse::bidirectional;
    CHECK(optic_for(site, one_gigabit, glass(100)) == -1);
    CHECK(why_no_optic(site, one_gigabit, glass(100)) == "no bidirectional optic in the catalogue runs 1G");
    site.catalogue.optics[1].strand_use = StrandUse::bidirectional;
    CHECK(optic_for(site, one_gigabit, glass(100)) == 1);
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
    CHECK(optic_for(site, one_gigabit, glass(100)) == 0);
}

TEST_CASE("an overloaded receiver gets the cheapest attenuator that brings it inside both limits, on its own strand") {
    Scenario site = drawing::bare_site();
    OpticProduct er = drawing::optic("er", 10000, 40000, 9000);
    er.to_building = {1550, -4.7, 4.0, -15.8, -1.0, 0};
    er.to_hub = er.to_building;
    site.catalogue.optics = {er};
    CHECK_FALSE(cheapest_lighting(site, ten_gigabit, glass(100)));
    const auto cents = [](double price) { return UnitPrice::from_minor(price); };
    site.catalogue.attenuators = {{"weak", "weak", 3, cents(100)},
                                  {"dear", "dear", 5, cents(900)},
                                  {"right", "right", 5, cents(700)},
                                  {"strong", "strong", 30, cents(200)}};
    const auto lit = cheapest_lighting(site, ten_gigabit, glass(100));
    REQUIRE(lit);
    CHECK(lit->attenuator_at_start == 2);
    CHECK(lit->attenuator_at_end == 2);
    // With one direction weaker only the other takes one.
    site.catalogue.optics[0].to_hub.launch_max_dbm = -1.0;
    const auto one = cheapest_lighting(site, ten_gigabit, glass(100));
    REQUIRE(one);
    CHECK_FALSE(one->attenuator_at_start);
    CHECK(one->attenuator_at_end == 2);
    // 16.7 km of glass need none.
    const auto far = cheapest_lighting(site, ten_gigabit, glass(16700));
    REQUIRE(far);
    CHECK_FALSE(far->attenuator_at_end);
}

TEST_CASE("on one strand an attenuator weakens both directions, and has to leave both inside their limits") {
    Scenario site = drawing::bare_site();
    site.rules.strand_use = StrandUse::bidirectional;
    OpticProduct bx = drawing::optic("bx", 10000, 40000, 9000);
    bx.strand_use = StrandUse::bidirectional;
    bx.to_building = {1330, 0, 4.0, -15.0, -1.0, 0};
    bx.to_hub = {1270, 0, -1.0, -6.0, -1.0, 0};  // 6 dB for all, attenuator included
    site.catalogue.optics = {bx};
    site.catalogue.attenuators = {{"att-5", "att-5", 5, UnitPrice::from_minor(700)}};
    // 5 dB of attenuator, two pairs of 0.5 dB and the fibre pass 6 dB.
    CHECK_FALSE(cheapest_lighting(site, ten_gigabit, {Length::from_metres(100), 2, 0}));
    const auto lit = cheapest_lighting(site, ten_gigabit, {Length::from_metres(100), 1, 0});
    REQUIRE(lit);
    CHECK_FALSE(lit->attenuator_at_start);
    CHECK(lit->attenuator_at_end == 0);
}

TEST_CASE("the price of attenuators counts in the choice of an optic") {
    Scenario site = drawing::bare_site();
    OpticProduct strong = drawing::optic("strong", 1000, 40000, 1000);
    strong.to_building.launch_max_dbm = strong.to_building.receive_max_dbm + 5;
    strong.to_hub = strong.to_building;
    site.catalogue.optics = {strong, drawing::optic("plain", 1000, 5000, 1200)};
    site.catalogue.attenuators = {{"att", "att", 5, UnitPrice::from_minor(150)}};
    CHECK(optic_for(site, one_gigabit, glass(100)) == 0);  // 2 x 10.00 and 2 x 1.50 against 2 x 12.00
    site.catalogue.attenuators[0].price = UnitPrice::from_minor(201);
    CHECK(optic_for(site, one_gigabit, glass(100)) == 1);
    CHECK(least_optic(site, one_gigabit, Length()) == 0);  // a bound charges the optic alone
}

TEST_CASE("the nearest optic is of the rate, and fails the fewest limits") {
    Scenario site = drawing::bare_site();
    site.catalogue.optics = {drawing::optic("slow", 100, 90000, 10), drawing::optic("short", 1000, 500, 900),
                             drawing::optic("long", 1000, 5000, 2000)};
    CHECK(nearest_lighting(site, one_gigabit, glass(6000))->optic == 1);  // both fail reach alone; the cheaper
    CHECK(nearest_lighting(site, one_gigabit, glass(3000))->optic == 2);
    CHECK(nearest_lighting(site, ten_gigabit, glass(3000)).has_value());
    site.rules.strand_use = StrandUse::bidirectional;
    CHECK_FALSE(nearest_lighting(site, one_gigabit, glass(3000)));
}

}  // namespace spadework
