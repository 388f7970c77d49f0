#include "growth/two_stage.hpp"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "extension/extension.hpp"
#include "layout/assembly.hpp"
#include "layout/support/drawn_site.hpp"
#include "rates/opening_rates.hpp"
#include "rates/quote_rates.hpp"

namespace spadework {
namespace {

using namespace drawing;

/// hub --100 m-- near --100 m-- far, a building 10 m off each, and a plot 10 m off the far end where one may come.
struct Street {
    Scenario site = bare_site();
    PlaceIndex near = add_place(site);
    PlaceIndex far = add_place(site);
    PlaceIndex plot = 0;

    Street() {
        add_segment(site, 0, near, 100);
        add_segment(site, near, far, 100);
        for (const PlaceIndex from : {near, far}) {
            const PlaceIndex at = add_place(site);
            add_segment(site, from, at, 10);
            add_building(site, at);
        }
        plot = add_place(site, PlaceKind::building);
        add_segment(site, far, plot, 10);
        for (std::size_t p = 0; p < site.places.size(); ++p)
            site.places[p].enclosure_allowed = site.places[p].kind == PlaceKind::junction;
        site.rules.contingency = Percent::from_percent(10);
        site.rules.tax = Percent::from_percent(20);
        site.growth.horizon_years = 10;
        site.grounds[0].methods[0].duct_per_metre = cents(150);
    }

    void may_come(double chance, int year, std::optional<PlaceIndex> at, int links = 1) {
        FutureBuilding future;
        future.id = "future-" + std::to_string(site.growth.buildings.size());
        future.name = future.id;
        future.place = at;
        future.chance = chance;
        future.year = year;
        future.links = links;
        site.growth.buildings.push_back(future);
    }
};

GrowthStudy study_of(const Scenario& site) {
    StudyOptions options;
    options.seconds = 5;
    return plan_for_growth(site, rank_places_for_one(site, options));
}

}  // namespace

TEST_CASE("a building that is likely to come pulls the enclosure to where it is connected without opening the street") {
    Street street;
    street.may_come(0.9, 3, street.plot);
    const GrowthStudy study = study_of(street.site);
    REQUIRE(study.reason.empty());
    CHECK(study.violations.empty());
    CHECK(study.blind.place() == street.near);
    CHECK(study.knowing().place() == street.far);
    CHECK(study.knowing().now > study.blind.now);
    CHECK(study.value() > Money());
    CHECK(study.value() == study.blind.total() - study.knowing().total());
    // From the near enclosure 100 m are opened again and 10 m dug, from the far one 10 m.
    CHECK(study.blind.future.front().opened == Length::from_metres(110));
    CHECK(study.knowing().future.front().opened == Length::from_metres(10));
}

TEST_CASE("one that hardly ever comes does not, and knowing of it is worth nothing") {
    Street street;
    street.may_come(0.001, 3, street.plot);
    const GrowthStudy study = study_of(street.site);
    REQUIRE(study.reason.empty());
    CHECK(study.knowing().place() == study.blind.place());
    CHECK(study.value() == Money());
}

TEST_CASE("expected costs of drops are what trying every outcome gives") {
    Street street;
    street.may_come(0.9, 3, street.plot);
    street.may_come(0.25, 7, street.near);
    street.may_come(0.5, 1, street.far, 2);
    street.site.growth.discount_rate = Percent::from_percent(5);
    const GrowthStudy study = study_of(street.site);
    REQUIRE(study.reason.empty());
    for (const GrowthPlan& plan : study.places) {
        double expected = 0;
        for (unsigned outcome = 0; outcome < 8; ++outcome) {
            double chance = 1;
            double cost = 0;
            for (std::size_t f = 0; f < 3; ++f) {
                const FutureBuilding& future = street.site.growth.buildings[f];
                const bool comes = (outcome >> f & 1U) != 0;
                chance *= comes ? future.chance : 1 - future.chance;
                if (comes) cost += static_cast<double>(plan.future[f].cost.minor()) / std::pow(1.05, future.year);
            }
            expected += chance * cost;
        }
        CHECK(std::abs(static_cast<double>(plan.drops.minor()) - expected) <= 1.5);
        CHECK(plan.later == quote_for(plan.drops + plan.trunks, street.site.rules).total());
    }
}

TEST_CASE("no place is expected to cost less than the one recommended, and what is cheapest today costs least today") {
    Dice dice(7);
    for (int round = 0; round < 12; ++round) {
        Street street;
        street.may_come(static_cast<double>(dice.between(0, 10)) / 10, static_cast<int>(dice.between(0, 12)),
                        street.plot, static_cast<int>(dice.between(1, 4)));
        street.site.growth.unnamed_links_per_year = static_cast<double>(dice.between(0, 8)) / 10;
        const GrowthStudy study = study_of(street.site);
        if (!study.reason.empty()) continue;
        CHECK(study.value() >= Money());
        for (const GrowthPlan& plan : study.places) {
            CHECK(plan.total() >= study.knowing().total());
            CHECK(plan.now >= study.blind.now);
        }
        CHECK(study.violations.empty());
    }
}

TEST_CASE("growth that fills the trunk makes it larger, and the plan in full has that trunk") {
    Street street;
    street.site.growth.unnamed_links_per_year = 0.8;
    const GrowthStudy study = study_of(street.site);
    REQUIRE(study.reason.empty());
    const auto strands = [&](const GrowthPlan& plan) {
        return street.site.catalogue.cables[static_cast<std::size_t>(plan.choices.front().product)].strands;
    };
    CHECK(strands(study.knowing()) > strands(study.blind));
    REQUIRE(study.plan);
    REQUIRE(study.plan->feasible());
    CHECK(study.plan->plan->cables.front().product == study.knowing().choices.front().product);
    CHECK(study.plan->total == study.knowing().now);
}

TEST_CASE("a building whose place is not known or that is due too late is not connected, and says why") {
    Street street;
    street.may_come(0.5, 3, std::nullopt);
    street.may_come(0.5, 11, street.plot);
    street.may_come(0, 2, street.plot);
    const GrowthStudy study = study_of(street.site);
    REQUIRE(study.reason.empty());
    CHECK(study.knowing().drops == Money());
    CHECK(study.knowing().future[0].left_out == "its place is not known");
    CHECK(study.knowing().future[1].left_out == "due beyond the horizon");
    CHECK(study.knowing().future[2].left_out == "it has no chance");
}

TEST_CASE("without growth, or without a place for an enclosure, there is no study, and it says why") {
    Street street;
    CHECK(study_of(street.site).reason == "the site file describes no growth");
    street.may_come(0.5, 3, street.plot);
    for (Place& place : street.site.places)
        place.enclosure_allowed = false;
    CHECK(study_of(street.site).reason.find("no place can take an enclosure") == 0);
}

TEST_CASE("a spare duct that pays is a line of the bill, and what is judged is the bill's total to the cent") {
    Street street;
    street.site.growth.unnamed_links_per_year = 2;
    // A duct is cheap, opening the street again is dear, and no cable is large enough for long.
    street.site.grounds[0].methods[0].duct_per_metre = cents(10);
    for (CableProduct& cable : street.site.catalogue.cables)
        cable.price_per_metre = cents(cable.strands * cable.strands * 100.0);
    const GrowthStudy study = study_of(street.site);
    REQUIRE(study.reason.empty());
    CHECK(study.violations.empty());
    const TrunkChoice& choice = study.knowing().choices.front();
    REQUIRE(choice.spare_duct);
    REQUIRE(study.plan);
    const auto duct = std::find_if(study.plan->bill.lines.begin(), study.plan->bill.lines.end(),
                                   [](const CostLine& line) { return line.item == "spare duct"; });
    REQUIRE(duct != study.plan->bill.lines.end());
    const Length trunk = study.plan->plan->cables.front().lengths.route;
    CHECK(duct->quantity == doctest::Approx(trunk.metres()));
    CHECK(duct->amount == amount(cents(10), trunk));
    CHECK(study.plan->bill.total() == study.knowing().now);
    CHECK(study.plan->total == study.knowing().now);
}

TEST_CASE("a drop goes along the poles that a likely one will use too, though digging is a little cheaper today") {
    // From the near corner to a house there are two ways: straight on through the ground, or along poles by a corner
    // where another may come. Poles in use cost nothing to use again.
    Street street;
    const PlaceIndex corner = add_place(street.site);
    const PlaceIndex house = add_place(street.site);
    add_segment(street.site, street.near, house, 30);
    const double dug = static_cast<double>(
        amount(groundworks_per_metre(street.site.grounds[0].methods[0], street.site.labour), Length::from_metres(30))
            .minor());
    for (const auto& [from, to] : {std::pair(street.near, corner), std::pair(corner, house)}) {
        add_segment(street.site, from, to, 20);
        street.site.segments.back().pole_line = true;
    }
    street.site.pole_line.plant_per_metre = cents(dug * 1.1 / 40);
    add_building(street.site, house);
    const PlaceIndex lot = add_place(street.site, PlaceKind::building);
    add_segment(street.site, corner, lot, 5);
    for (std::size_t p = 0; p < street.site.places.size(); ++p)
        street.site.places[p].enclosure_allowed = static_cast<PlaceIndex>(p) == street.near;
    street.may_come(0.95, 1, lot);
    const GrowthStudy study = study_of(street.site);
    REQUIRE(study.reason.empty());
    CHECK(study.violations.empty());
    CHECK(study.replanned == 1);
    CHECK(study.knowing().routes_for_growth);
    CHECK(study.knowing().now > study.blind.now);
    CHECK(study.value() > Money());
    CHECK(study.knowing().future.front().opened == Length::from_metres(5));
}

TEST_CASE("plans with several enclosures are judged beside those with one, each trunk by itself") {
    Street street;
    street.may_come(0.9, 3, street.plot);
    street.site.rules.most_enclosures = 2;
    StudyOptions options;
    options.seconds = 5;
    const EnclosureStudy places = rank_places_for_one(street.site, options);
    REQUIRE(places.ranking.size() == 2);
    // Both enclosures, each for the building beside it: a plan written down from the two with one.
    RoutedLayout routed;
    routed.kind = LayoutKind::trunk;
    for (const PlaceRank& ranked : places.ranking) {
        const Plan& plan = *ranked.result.plan;
        const PlannedCable& trunk = plan.cables[static_cast<std::size_t>(plan.enclosures.front().trunks.front())];
        routed.enclosures.push_back({ranked.place, {trunk.from, trunk.to, trunk.steps}});
    }
    std::sort(routed.enclosures.begin(), routed.enclosures.end(),
              [](const RoutedEnclosure& a, const RoutedEnclosure& b) { return a.place < b.place; });
    routed.buildings = {{0, 0, {street.near, street.site.buildings[0].place, {{2, 0}}}},
                        {1, 1, {street.far, street.site.buildings[1].place, {{3, 0}}}}};
    Design several;
    several.layout = LayoutKind::trunk;
    several.plan = assemble(street.site, routed).plan;
    REQUIRE(several.plan);
    const std::vector<LayoutResult> found = {assess(street.site, std::move(several))};
    const GrowthStudy study = plan_for_growth(street.site, places, found);
    CHECK(study.violations.empty());
    REQUIRE(study.places.size() == 3);
    const auto two = std::find_if(study.places.begin(), study.places.end(),
                                  [](const GrowthPlan& plan) { return plan.choices.size() == 2; });
    REQUIRE(two != study.places.end());
    CHECK(two->future.front().from == street.far);
    CHECK(two->future.front().opened == Length::from_metres(10));
    CHECK(two->total() >= study.knowing().total());
    CHECK(two->now >= study.blind.now);
}

}  // namespace spadework
