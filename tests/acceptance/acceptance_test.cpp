#include "acceptance/acceptance.hpp"

#include <doctest/doctest.h>

#include "acceptance/support/lakeside_plan.hpp"

namespace spadework::acceptance {
namespace {

using testing::good_readings;
using testing::of_strand;

/// The lakeside plan and readings that all pass, for a test to spoil.
struct Lakeside {
    plan_file::PlanFile plan = testing::lakeside();
    std::vector<Reading> readings = good_readings(plan);

    [[nodiscard]] Acceptance judged(const AcceptanceLimits& limits = {}) const { return judge(plan, readings, limits); }
};

const plan_file::NamedReading& reading_of(const Acceptance& acceptance, const plan_file::ReadingKey& key) {
    for (const JudgedReading& judged : acceptance.readings) {
        if (judged.reading.key == key) return judged.reading;
    }
    throw std::runtime_error("no such reading");
}

}  // namespace

TEST_CASE("readings within their limits pass, all of them") {
    const Lakeside site;
    const Acceptance acceptance = site.judged();
    CHECK(acceptance.readings.size() == 16);
    CHECK(acceptance.count(Verdict::pass) == 16);
    CHECK(acceptance.accepted());
    CHECK(acceptance.lengths == 16);
}

TEST_CASE("a loss at the limit passes, and a thousandth above it fails by a thousandth") {
    Lakeside site;
    site.readings[0].loss_mdb = site.plan.tests[0].limits[0].pass_mdb;
    CHECK(site.judged({3000, Length::from_metres(2), 10000}).accepted());
    ++*site.readings[0].loss_mdb;
    const Acceptance acceptance = site.judged({3000, Length::from_metres(2), 10000});
    CHECK_FALSE(acceptance.accepted());
    CHECK(acceptance.count(Verdict::fail) == 1);
    CHECK(acceptance.readings[0].reading.verdict == Verdict::fail);
    CHECK(acceptance.readings[0].reading.why == "0.001 dB over the limit");
}

TEST_CASE("a loss at the least possible passes, and a thousandth below it is too good") {
    Lakeside site;
    site.readings[3].loss_mdb = site.plan.tests[1].limits[0].least_mdb;
    CHECK(site.judged({3000, Length::from_metres(2), 10000}).accepted());
    --*site.readings[3].loss_mdb;
    CHECK(site.judged({3000, Length::from_metres(2), 10000}).readings[3].reading.verdict == Verdict::too_good);
}

TEST_CASE("a length at the tolerance passes, and a millimetre beyond is wrong") {
    Lakeside site;
    const Length glass = site.plan.tests[0].glass;
    const Length tolerance = Length::from_millimetres(glass.millimetres() * 3 / 100);
    site.readings[0].length = glass + tolerance;
    CHECK(site.judged().accepted());
    site.readings[0].length = glass + tolerance + Length::from_millimetres(1);
    const Acceptance acceptance = site.judged();
    CHECK(acceptance.readings[0].reading.verdict == Verdict::wrong_length);
    CHECK(acceptance.readings[0].reading.why.find("15.0 m longer than the 500.0 m planned") == 0);
}

TEST_CASE("a short cable has the least tolerance, whatever its share") {
    const AcceptanceLimits limits{3000, Length::from_metres(2), 500};
    CHECK(length_fits(Length::from_metres(12), Length::from_metres(10), limits));
    CHECK_FALSE(length_fits(Length::from_millimetres(12001), Length::from_metres(10), limits));
    CHECK(length_fits(Length(), Length(), limits));
    const Length far = Length::from_millimetres(1'000'000'000'000);
    CHECK(length_fits(far, far, {100'000, {}, 0}));
}

TEST_CASE("two strands that carry each other's length are swapped, in every reading of both") {
    Lakeside site;
    const auto kiosk = of_strand(site.readings, "kiosk", 1);
    const auto sauna = of_strand(site.readings, "sauna", 2);
    for (std::size_t r = 0; r < kiosk.size(); ++r)
        std::swap(kiosk[r]->length, sauna[r]->length);
    const Acceptance acceptance = site.judged();
    CHECK(acceptance.count(Verdict::swapped) == 4);
    CHECK(acceptance.count(Verdict::pass) == 12);
    CHECK(reading_of(acceptance, kiosk[0]->key).why ==
          "fits the length of sauna link 1 strand 2, and that one fits this");
    CHECK(reading_of(acceptance, sauna[1]->key).why ==
          "fits the length of kiosk link 1 strand 1, and that one fits this");
}

TEST_CASE("without lengths, losses tell swapped strands where each breaks its limits and keeps the other's") {
    Lakeside site;
    // Limits far apart, as of a short and a long link.
    for (plan_file::NamedTest& test : site.plan.tests) {
        if (test.building == "kiosk") test.limits[0] = {1310000, 1000, 9000, 1000, 100};
        if (test.building == "sauna") test.limits[0] = {1310000, 5000, 9000, 5000, 2000};
    }
    site.readings = good_readings(site.plan);
    for (Reading& reading : site.readings)
        reading.length.reset();
    CHECK(site.judged().accepted());
    const auto kiosk = of_strand(site.readings, "kiosk", 1);
    const auto sauna = of_strand(site.readings, "sauna", 1);
    for (std::size_t r = 0; r < kiosk.size(); ++r)
        std::swap(kiosk[r]->loss_mdb, sauna[r]->loss_mdb);
    const Acceptance acceptance = site.judged();
    CHECK(acceptance.count(Verdict::swapped) == 4);
    CHECK(acceptance.lengths == 0);
    // One alone is a fail: nobody has its readings.
    for (Reading* reading : sauna)
        reading->loss_mdb = 3000;
    CHECK(site.judged().count(Verdict::swapped) == 0);
    CHECK(site.judged().count(Verdict::fail) == 2);
}

TEST_CASE("one direction far from the other is told of both, and the limit is the caller's") {
    Lakeside site;
    *site.readings[0].loss_mdb += 501;
    CHECK(site.judged().count(Verdict::directions_differ) == 2);
    CHECK(site.judged({3000, Length::from_metres(2), 501}).accepted());
}

TEST_CASE("what was not read is missing, and nothing is accepted without it") {
    Lakeside site;
    site.readings.pop_back();
    const Acceptance acceptance = site.judged();
    CHECK(acceptance.count(Verdict::missing) == 1);
    CHECK_FALSE(acceptance.accepted());
    CHECK(acceptance.readings.back().reading.key.from == "sauna");
}

TEST_CASE("a reading of what the plan does not have says which part, with the nearest name") {
    Lakeside site;
    const auto why = [&](plan_file::ReadingKey key, const std::string& layout = "") {
        Reading reading;
        reading.layout = layout;
        reading.key = std::move(key);
        reading.loss_mdb = 1000;
        std::vector<Reading> all = site.readings;
        all.push_back(reading);
        const Acceptance acceptance = judge(site.plan, all, {});
        CHECK(acceptance.count(Verdict::not_in_plan) == 1);
        CHECK_FALSE(acceptance.accepted());
        return acceptance.readings.back().reading.why;
    };
    CHECK(why({"kisok", 1, 1, "hub", 1310000}) == "the plan has no building 'kisok'; did you mean 'kiosk'?");
    CHECK(why({"kiosk", 2, 1, "hub", 1310000}) == "'kiosk' has no link 2");
    CHECK(why({"kiosk", 1, 3, "hub", 1310000}) == "link 1 to 'kiosk' has no strand 3");
    CHECK(why({"kiosk", 1, 1, "hud", 1310000}) == "the plan has no end 'hud'; did you mean 'hub'?");
    CHECK(why({"kiosk", 1, 1, "hub", 1550000}) == "not measured at 1550 nm but at 1310");
    CHECK(why({"kiosk", 1, 1, "hub", 1310000}, "home-runs") == "of layout 'home-runs'; the plan is trunk-one");
}

TEST_CASE("an as-built record counts for what is not measured again") {
    Lakeside site;
    const auto cabins = of_strand(site.readings, "cabins", 1);
    for (Reading* reading : cabins)
        *reading->loss_mdb = 9000;
    const plan_file::PlanFile record = as_built(site.plan, site.judged());
    REQUIRE(record.as_built);
    CHECK(record.as_built->readings.size() == 16);
    const std::vector<Reading> good = good_readings(site.plan);
    std::vector<Reading> again;
    for (const Reading& reading : good) {
        if (reading.key.building == "cabins" && reading.key.leg == 1) again.push_back(reading);
    }
    CHECK_FALSE(judge(record, {}, {}).accepted());
    const Acceptance second = judge(record, again, {});
    CHECK(second.accepted());
    CHECK(second.from_earlier == 14);
}

TEST_CASE("a cable's own length is the mean of its strands where its links run through it alone") {
    Lakeside site;
    for (plan_file::NamedLink& link : site.plan.links) {
        if (link.building == "kiosk") link.cables = {"drop-kiosk"};
    }
    of_strand(site.readings, "kiosk", 1)[0]->length = Length::from_metres(398);
    const Acceptance acceptance = site.judged();
    for (const plan_file::AsBuiltCable& cable : acceptance.cables) {
        CAPTURE(cable.cable);
        CHECK(cable.measured.has_value() == (cable.cable == "drop-kiosk"));
        if (cable.measured) CHECK(*cable.measured == Length::from_millimetres(399500));
    }
}

TEST_CASE("spoiling one reading of a plan changes verdicts of its own strand alone") {
    const Lakeside good;
    for (std::size_t spoiled = 0; spoiled < good.readings.size(); ++spoiled) {
        Lakeside site = good;
        site.readings[spoiled].loss_mdb = 9000;
        const Acceptance acceptance = site.judged();
        CHECK(acceptance.count(Verdict::fail) == 1);
        for (const JudgedReading& judged : acceptance.readings) {
            const bool same_strand = judged.reading.key.building == site.readings[spoiled].key.building &&
                                     judged.reading.key.leg == site.readings[spoiled].key.leg;
            if (!same_strand) CHECK(judged.reading.verdict == Verdict::pass);
        }
    }
}

}  // namespace spadework::acceptance
