#include "layout/hop_reach.hpp"

#include <doctest/doctest.h>

#include "layout/assembly.hpp"
#include "layout/support/drawn_site.hpp"
#include "support/effort.hpp"

namespace spadework {
namespace {

using drawing::Dice;

Length millimetres(std::int64_t length) {
    return Length::from_millimetres(length);
}

/// A hub and a building, and a long detour that nobody takes but that makes the map as large as any hop.
Scenario site_with_one_hop(Length route) {
    Scenario site = drawing::row_site(1, 1);
    site.segments.front().length = route;
    const PlaceIndex far = drawing::add_place(site);
    drawing::add_segment(site, 0, far, 100'000);
    return site;
}

/// Whether a plan can be made of one hop that is so long.
bool can_be_built(Scenario site, Length route) {
    site.segments.front().length = route;
    RoutedLayout routed;
    routed.kind = LayoutKind::daisy_chain;
    routed.buildings = {{0, -1, {0, 1, {{0, 0}}}}};
    routed.chains = {{0}};
    return assemble(site, routed).plan.has_value();
}

/// Products whose limits lie about where hops of some hundred metres end.
Scenario random_site(Dice& dice) {
    Scenario site = site_with_one_hop(Length::from_metres(10));
    site.catalogue.optics = {drawing::optic("near", 1000, static_cast<double>(dice.between(60, 900)), 900),
                             drawing::optic("far", 1000, static_cast<double>(dice.between(150, 2500)), 6000)};
    for (CableProduct& cable : site.catalogue.cables) {
        cable.longest = Length::from_metres(static_cast<double>(dice.between(40, 900)));
        cable.length_step = Length::from_metres(static_cast<double>(dice.between(1, 30)));
        cable.price_per_metre = UnitPrice::from_minor(static_cast<double>(dice.between(50, 300)));
    }
    site.rules.termination = dice.one_in(2) ? Termination::factory : Termination::spliced;
    site.rules.loss.splice_db = dice.one_in(2) ? 0.1 : 2.5;
    site.rules.slack.rise_per_end = Length::from_metres(static_cast<double>(dice.between(0, 12)));
    site.rules.slack.ordering_allowance = Percent::from_percent(static_cast<double>(dice.between(0, 9)));
    site.buildings.front().links = {{BitRate::from_megabits(1000), static_cast<int>(dice.between(1, 3))}};
    return site;
}

}  // namespace

TEST_CASE("hops may be as long as the optic that reaches farthest allows, slack at their ends taken off") {
    Scenario site = site_with_one_hop(Length::from_metres(10));
    site.catalogue.optics = {drawing::optic("short", 1000, 500, 900), drawing::optic("long", 1000, 800, 2000)};
    site.rules.slack.rise_per_end = Length::from_metres(10);
    site.rules.slack.coil_per_end = Length::from_metres(5);
    site.rules.slack.ordering_allowance = Percent::from_percent(0);
    CHECK(longest_hop(site) == Length::from_metres(770));
    site.rules.slack.ordering_allowance = Percent::from_percent(60);  // Glass 1.6 times the route: 500 - 30.
    CHECK(longest_hop(site) == Length::from_metres(470));
}

TEST_CASE("joints on the way may end a hop before the reach does") {
    Scenario site = site_with_one_hop(Length::from_metres(10));
    site.catalogue.optics = {drawing::optic("only", 1000, 5000, 900)};
    for (CableProduct& cable : site.catalogue.cables)
        cable.longest = Length::from_metres(1000);
    site.rules.slack = {};
    site.rules.slack.ordering_allowance = Percent::from_percent(0);
    site.rules.loss.splice_db = 4.5;  // One joint and 2 km are less than 10.5 dB, two joints are more.
    CHECK(longest_hop(site) == Length::from_metres(2000));
}

TEST_CASE("an optic that begins beyond a stretch that none carries does not make hops longer") {
    Scenario site = site_with_one_hop(Length::from_metres(10));
    site.catalogue.optics = {drawing::optic("near", 1000, 500, 900), drawing::optic("far", 1000, 5000, 900)};
    site.catalogue.optics[1].least_length = Length::from_metres(700);
    site.rules.slack = {};
    site.rules.slack.ordering_allowance = Percent::from_percent(0);
    CHECK(longest_hop(site) == Length::from_metres(500));
    site.catalogue.optics[1].least_length = Length::from_metres(400);
    CHECK(longest_hop(site) == Length::from_metres(5000));
}

TEST_CASE("hops have no limit where no way on the map is too long, nor where all are too short") {
    Scenario site = drawing::row_site(4, 100);
    CHECK_FALSE(longest_hop(site));
    for (OpticProduct& optic : site.catalogue.optics)
        optic.least_length = Length::from_metres(2000);
    CHECK_FALSE(longest_hop(site));
    site.catalogue.optics.clear();
    CHECK_FALSE(longest_hop(site));
}

TEST_CASE("hops up to the limit can be built and one a millimetre longer cannot, on random sites") {
    int limited = 0;
    int below_the_longest_reach = 0;
    for (int round = 0; round < effort(150); ++round) {
        CAPTURE(round);
        Dice dice(5100 + static_cast<unsigned>(round));
        const Scenario site = random_site(dice);
        const auto limit = longest_hop(site);
        if (!limit) continue;
        ++limited;
        below_the_longest_reach += *limit + Length::from_metres(40) < site.catalogue.optics[1].reach ? 1 : 0;
        CHECK(can_be_built(site, *limit));
        CHECK_FALSE(can_be_built(site, *limit + millimetres(1)));
        for (int i = 0; i < 5; ++i)
            CHECK(can_be_built(site, millimetres(dice.between(0, limit->millimetres()))));
    }
    MESSAGE(limited << " sites with a limit, in " << below_the_longest_reach << " well below the longest reach");
    CHECK(limited >= effort(150) * 3 / 4);
}

TEST_CASE("spans count the coils in handholes that a hop passes, and never too little") {
    Scenario site = drawing::bare_site();
    const PlaceIndex handhole = drawing::add_place(site, PlaceKind::handhole);
    const PlaceIndex end = drawing::add_place(site);
    drawing::add_segment(site, 0, handhole, 100);
    drawing::add_segment(site, handhole, end, 50);
    drawing::add_building(site, end);
    site.rules.slack.coil_per_handhole = millimetres(7001);
    const auto spans = hop_spans(site, network_of(site));
    REQUIRE(spans.size() == 2);
    CHECK(spans[0] == 103'501);
    CHECK(spans[1] == 53'501);
}

}  // namespace spadework
