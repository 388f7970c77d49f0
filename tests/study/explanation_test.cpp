#include "study/explanation.hpp"

#include <vector>

#include <doctest/doctest.h>

#include "costing/bill.hpp"
#include "layout/support/drawn_site.hpp"
#include "rates/quote_rates.hpp"
#include "support/effort.hpp"
#include "support/small_site.hpp"

using namespace spadework;

namespace {

Comparison compared(const Scenario& site, std::vector<LayoutKind> layouts, int threads = 1) {
    StudyOptions options;
    options.layouts = std::move(layouts);
    options.threads = threads;
    Study study = compare_layouts(site, options);
    CHECK(study.violations.empty());
    return std::move(study.comparison);
}

const LayoutResult& cheapest_of(const Comparison& comparison) {
    REQUIRE(comparison.cheapest.has_value());
    return comparison.layouts[static_cast<std::size_t>(*comparison.cheapest)];
}

Explanation explained(const Scenario& site, const Comparison& comparison, int threads = 1) {
    StudyOptions options;
    options.threads = threads;
    const auto explanation = explain(site, comparison, options);
    REQUIRE(explanation.has_value());
    CHECK(explanation->violations.empty());
    CHECK(!explanation->interrupted);
    return *explanation;
}

/// What so much more direct cost makes of a total, rounded as the bill is.
Money more_in_total(const Scenario& site, const LayoutResult& best, std::int64_t direct_cents) {
    const Money direct = direct_cost(best.bill);
    return quote_for(direct + Money::from_minor(direct_cents), site.rules).total() - best.total;
}

Length metres(double length) {
    return Length::from_metres(length);
}

/// The small site with a way of 60 m across the meadow, from the barn to the mill.
Scenario site_with_meadow() {
    Scenario site = small_site::site();
    small_site::add_segment(site, "meadow", small_site::barn_place, small_site::mill_place, 60);
    return site;
}

/// Hub, a junction in the middle, and buildings around it, each 40 m off on a way of its own.
Scenario star(int buildings) {
    Scenario site = drawing::bare_site();
    const PlaceIndex middle = drawing::add_place(site);
    drawing::add_segment(site, 0, middle, 100);
    for (int b = 0; b < buildings; ++b) {
        const PlaceIndex at = drawing::add_place(site);
        drawing::add_segment(site, middle, at, 40);
        drawing::add_building(site, at);
    }
    return site;
}

/// A hub and three buildings at the corners of a square.
Scenario square() {
    Scenario site = drawing::row_site(3, 100);
    drawing::add_segment(site, 3, 0, 100);
    return site;
}

/// Streets of random lengths in a grid of 3 by 3, buildings on four of the corners.
Scenario small_town(unsigned seed) {
    drawing::Dice dice(seed);
    Scenario site = drawing::bare_site();
    for (int p = 1; p < 9; ++p)
        drawing::add_place(site);
    for (PlaceIndex p = 0; p < 9; ++p) {
        if (p % 3 != 2) drawing::add_segment(site, p, p + 1, static_cast<double>(dice.between(30, 90)));
        if (p < 6) drawing::add_segment(site, p, p + 3, static_cast<double>(dice.between(30, 90)));
    }
    for (const PlaceIndex at : {2, 5, 6, 8})
        drawing::add_building(site, at);
    return site;
}

}  // namespace

TEST_CASE("a home run's next best way costs the longer trench and cable, worked out by hand") {
    const Scenario site = site_with_meadow();
    const Comparison comparison = compared(site, {LayoutKind::home_runs});
    const LayoutResult& best = cheapest_of(comparison);
    const Explanation explanation = explained(site, comparison);
    CHECK(explanation.enclosures.empty());
    REQUIRE(explanation.buildings.size() == 2);

    const BuildingReason& mill = explanation.buildings[small_site::mill];
    CHECK(mill.service == Service{std::nullopt, std::nullopt, std::nullopt, metres(150)});
    CHECK(mill.own_trench == metres(50));
    CHECK(mill.shared_trench == metres(100));
    // Across the meadow: 10 m more trench at 20.00, 40 m more cable at 0.60, and its duct and pulling at 1.86.
    REQUIRE(mill.otherwise.found);
    CHECK(mill.otherwise.extra == more_in_total(site, best, 200'00 + 24'00 + 74'40));
    CHECK(mill.service_otherwise == Service{std::nullopt, std::nullopt, std::nullopt, metres(190)});
    CHECK(mill.segment_avoided == small_site::lane);
    REQUIRE(mill.otherwise.least_extra.has_value());
    CHECK(*mill.otherwise.least_extra <= mill.otherwise.extra);

    const BuildingReason& barn = explanation.buildings[small_site::barn];
    // 30 m more trench, 80 m more cable.
    CHECK(barn.otherwise.extra == more_in_total(site, best, 600'00 + 48'00 + 148'80));
    CHECK(barn.segment_avoided == small_site::path);
}

TEST_CASE("a building whose own segment is the only way to it has no other way, and the reason says so") {
    const Scenario site = small_site::site();
    const Explanation explanation = explained(site, compared(site, {LayoutKind::home_runs}));
    for (const BuildingReason& reason : explanation.buildings) {
        CHECK(reason.otherwise.looked_at);
        CHECK(!reason.otherwise.found);
        CHECK(reason.otherwise.reason == "its own segments are the only way to it");
        CHECK(reason.left_out.found);
    }
}

TEST_CASE("an enclosure's next best place costs the longer cables, worked out by hand") {
    Scenario site = small_site::site();
    site.places[small_site::hub].enclosure_allowed = false;
    site.places[small_site::barn_place].enclosure_allowed = false;
    const Comparison comparison = compared(site, {LayoutKind::trunk_one});
    const LayoutResult& best = cheapest_of(comparison);
    const Explanation explanation = explained(site, comparison);
    REQUIRE(explanation.enclosures.size() == 1);
    const EnclosureReason& gate = explanation.enclosures.front();
    CHECK(gate.place == small_site::gate);
    CHECK(gate.buildings_served == 2);
    // At the mill: 150 m of trunk and 80 m of drop for 100 m, 50 m and 30 m; 50 m more in all at 0.60 and 1.86.
    REQUIRE(gate.elsewhere.found);
    CHECK(gate.places_elsewhere == std::vector<PlaceIndex>{small_site::mill_place});
    CHECK(gate.elsewhere.extra == more_in_total(site, best, 30'00 + 93'00));
    REQUIRE(gate.elsewhere.least_extra.has_value());
    CHECK(*gate.elsewhere.least_extra <= gate.elsewhere.extra);
    for (const BuildingReason& reason : explanation.buildings)
        CHECK(reason.service.enclosure == small_site::gate);
}

TEST_CASE("without its only enclosure a plan becomes home runs, taken from the comparison or worked out") {
    Scenario site = small_site::site();
    site.places[small_site::hub].enclosure_allowed = false;
    const Comparison trunk = compared(site, {LayoutKind::trunk_one});
    const Comparison runs = compared(site, {LayoutKind::home_runs});
    const Money extra = cheapest_of(runs).total - cheapest_of(trunk).total;
    CHECK(explained(site, trunk).enclosures.front().left_out.extra == extra);

    const Comparison both = compare(site, {cheapest_of(runs), cheapest_of(trunk)});
    if (cheapest_of(both).layout == LayoutKind::trunk_one) {
        CHECK(explained(site, both).enclosures.front().left_out.extra == extra);
    }
}

TEST_CASE("where no other place may take the enclosure, the reason says so") {
    Scenario site = small_site::site();
    for (Place& place : site.places)
        place.enclosure_allowed = place.id == "gate";
    const Explanation explanation = explained(site, compared(site, {LayoutKind::trunk_one}));
    CHECK(!explanation.enclosures.front().elsewhere.found);
    CHECK(explanation.enclosures.front().elsewhere.reason == "no place that the hub can reach may hold an enclosure");
}

TEST_CASE("on a star, leaving a building out saves its own trench, cable, link and gear") {
    const Scenario site = star(4);
    for (const LayoutKind layout : {LayoutKind::home_runs, LayoutKind::mixed}) {
        const Comparison comparison = compared(site, {layout});
        const LayoutResult& best = cheapest_of(comparison);
        const Explanation explanation = explained(site, comparison);
        for (const BuildingReason& reason : explanation.buildings) {
            Scenario fewer = site;
            fewer.buildings.erase(fewer.buildings.begin() + reason.building);
            const Money without = cheapest_of(compared(fewer, {layout})).total;
            REQUIRE(reason.left_out.found);
            CHECK(reason.left_out.extra == without - best.total);
            CHECK(reason.own_trench == metres(40));
        }
    }
}

TEST_CASE("what home runs on a star save without a building is what its bill lines say") {
    const Scenario site = star(4);
    const Comparison comparison = compared(site, {LayoutKind::home_runs});
    const LayoutResult& best = cheapest_of(comparison);
    const BuildingReason reason = explained(site, comparison).buildings[2];
    Money own;
    for (const CostLine& line : best.bill.lines) {
        const bool its = line.cause_id == "b002" || line.cause_id == "run-b002" || line.cause_id == "s0003";
        if (its) own += line.amount;
    }
    CHECK(own > Money::from_minor(800'00));  // 40 m at 20.00 alone.
    CHECK(reason.left_out.extra == more_in_total(site, best, -own.minor()));
}

TEST_CASE("no alternative costs less than the bound of the layout allows") {
    int dearer = 0;
    for (unsigned seed = 1; seed <= static_cast<unsigned>(effort(12)); ++seed) {
        const Scenario site = small_town(seed);
        for (const LayoutKind layout : {LayoutKind::home_runs, LayoutKind::trunk_one, LayoutKind::mixed,
                                        LayoutKind::daisy_chain, LayoutKind::ring}) {
            const Comparison comparison = compared(site, {layout});
            const LayoutResult& best = cheapest_of(comparison);
            const Explanation explanation = explained(site, comparison);
            std::vector<Alternative> alternatives;
            for (const EnclosureReason& reason : explanation.enclosures)
                alternatives.push_back(reason.elsewhere);
            for (const BuildingReason& reason : explanation.buildings) {
                alternatives.push_back(reason.otherwise);
                CHECK(reason.left_out.extra < Money());
            }
            for (const Alternative& alternative : alternatives) {
                if (!alternative.found) continue;
                CHECK(alternative.extra >= best.bound - best.total);
                CHECK(alternative.least_extra.value_or(alternative.extra) <= alternative.extra);
                if (alternative.extra > Money()) ++dearer;
            }
        }
    }
    CHECK(dearer > effort(100));
}

TEST_CASE("a plan with two enclosures tells what one fewer costs, and which other one could serve a building") {
    Scenario site = drawing::bare_site();  // Two clusters of three buildings on either side of the hub.
    for (int side = 0; side < 2; ++side) {
        const PlaceIndex middle = drawing::add_place(site);
        drawing::add_segment(site, 0, middle, 400);
        for (int b = 0; b < 3; ++b) {
            const PlaceIndex at = drawing::add_place(site);
            drawing::add_segment(site, middle, at, 20);
            drawing::add_building(site, at);
        }
    }
    site.rules.most_enclosures = 2;
    const Comparison comparison = compared(site, {LayoutKind::trunk});
    const Explanation explanation = explained(site, comparison);
    REQUIRE(explanation.enclosures.size() == 2);
    for (const EnclosureReason& reason : explanation.enclosures) {
        REQUIRE(reason.left_out.found);
        CHECK(reason.places_left_out.size() == 1);
        CHECK(reason.left_out.extra > Money());
        REQUIRE(reason.elsewhere.found);
        CHECK(reason.elsewhere.extra <= reason.left_out.extra);
    }
    for (const BuildingReason& reason : explanation.buildings) {
        REQUIRE(reason.otherwise.found);
        CHECK(reason.service_otherwise.enclosure != reason.service.enclosure);
        CHECK(reason.service_otherwise.route == metres(820));  // Back to the hub and out again.
        CHECK(reason.otherwise.extra > Money());
    }
}

TEST_CASE("a building of a chain may stand elsewhere in it, and its neighbours are joined when it is left out") {
    const Scenario site = square();
    const Comparison comparison = compared(site, {LayoutKind::daisy_chain});
    const LayoutResult& best = cheapest_of(comparison);
    const Explanation explanation = explained(site, comparison);
    for (const BuildingReason& reason : explanation.buildings) {
        REQUIRE(reason.otherwise.found);
        CHECK(reason.otherwise.extra >= Money());
        Scenario fewer = site;
        fewer.buildings.erase(fewer.buildings.begin() + reason.building);
        REQUIRE(reason.left_out.found);
        CHECK(reason.left_out.extra == cheapest_of(compared(fewer, {LayoutKind::daisy_chain})).total - best.total);
    }
}

TEST_CASE("a ring that needs every segment has no other way, and saves what a smaller ring does") {
    const Scenario site = square();
    const Comparison comparison = compared(site, {LayoutKind::ring});
    const LayoutResult& best = cheapest_of(comparison);
    const Explanation explanation = explained(site, comparison);
    for (const BuildingReason& reason : explanation.buildings) {
        CHECK(!reason.otherwise.found);
        Scenario fewer = site;
        fewer.buildings.erase(fewer.buildings.begin() + reason.building);
        REQUIRE(reason.left_out.found);
        CHECK(reason.left_out.extra == cheapest_of(compared(fewer, {LayoutKind::ring})).total - best.total);
    }
}

TEST_CASE("the only building cannot be left out") {
    const Scenario site = star(1);
    const Explanation explanation = explained(site, compared(site, {LayoutKind::home_runs}));
    CHECK(!explanation.buildings.front().left_out.found);
    CHECK(explanation.buildings.front().left_out.reason == "it is the only building");
}

TEST_CASE("where no layout is feasible there is nothing to explain") {
    Scenario site = small_site::site();
    site.catalogue.optics.clear();
    CHECK(!explain(site, compared(site, {}), {}).has_value());
}

TEST_CASE("without time nothing is looked at, and the explanation says so") {
    const Scenario site = site_with_meadow();
    StudyOptions options;
    options.seconds = 0;
    const auto explanation = explain(site, compared(site, {LayoutKind::home_runs}), options);
    REQUIRE(explanation.has_value());
    CHECK(explanation->interrupted);
    for (const BuildingReason& reason : explanation->buildings) {
        CHECK(!reason.otherwise.looked_at);
        CHECK(!reason.left_out.looked_at);
        CHECK(reason.service.route > Length());
    }
}

TEST_CASE("after a wish to stop, what is done is kept and the rest is not looked at") {
    class StopAfter : public StudyObserver {
    public:
        void started(LayoutKind /*layout*/) override {}
        void improved(LayoutKind /*layout*/, std::int64_t /*value*/, std::int64_t /*bound*/) override {}
        void explained(int done, int of) override {
            done_ = done;
            of_ = of;
        }
        [[nodiscard]] bool should_stop() const override { return done_ >= 3; }
        int done_ = 0;
        int of_ = 0;
    };
    const Scenario site = star(4);
    const Comparison comparison = compared(site, {LayoutKind::home_runs});
    StopAfter observer;
    StudyOptions options;
    options.observer = &observer;
    const auto explanation = explain(site, comparison, options);
    CHECK(explanation->interrupted);
    CHECK(observer.of_ == 8);
    CHECK(explanation->buildings[0].left_out.looked_at);
    CHECK(explanation->buildings[1].otherwise.looked_at);
    CHECK(!explanation->buildings[1].left_out.looked_at);
    CHECK(!explanation->buildings[3].left_out.looked_at);
}

TEST_CASE("the explanation is the same whatever the number of threads") {
    const Scenario site = small_town(5);
    const Comparison comparison = compared(site, {});
    const Explanation one = explained(site, comparison, 1);
    const Explanation many = explained(site, comparison, 5);
    REQUIRE(one.buildings.size() == many.buildings.size());
    for (std::size_t b = 0; b < one.buildings.size(); ++b) {
        CHECK(one.buildings[b].otherwise.extra == many.buildings[b].otherwise.extra);
        CHECK(one.buildings[b].service_otherwise == many.buildings[b].service_otherwise);
        CHECK(one.buildings[b].left_out.extra == many.buildings[b].left_out.extra);
    }
}
