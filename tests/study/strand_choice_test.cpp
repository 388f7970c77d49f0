#include "study/strand_choice.hpp"

#include <doctest/doctest.h>

#include "strands/strand_need.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

Scenario either_site() {
    Scenario site = small_site::site();
    site.rules.either_strand_use = true;
    return site;
}

LayoutResult result(StrandUse use, std::int64_t total, std::int64_t bound) {
    LayoutResult made;
    made.plan = Plan();
    made.plan->strand_use = use;
    made.total = Money::from_minor(total);
    made.direct_bound = Money::from_minor(bound);
    made.bound = Money::from_minor(bound * 132 / 100);  // 10 % of contingency, 20 % of tax
    return made;
}

LayoutResult none(bool impossible, std::int64_t bound) {
    LayoutResult made;
    made.reason = "no optic";
    made.impossible = impossible;
    made.direct_bound = Money::from_minor(bound);
    return made;
}

}  // namespace

TEST_CASE("the cheaper strand use is chosen, the first among equals, and the other's total is kept") {
    const Scenario site = either_site();
    const auto choose = [&](std::int64_t duplex, std::int64_t one_strand) {
        return cheaper_of(site, result(StrandUse::duplex, duplex, 100),
                          result(StrandUse::bidirectional, one_strand, 100));
    };
    CHECK(choose(900, 800).plan->strand_use == StrandUse::bidirectional);
    CHECK(choose(900, 800).other->use == StrandUse::duplex);
    CHECK(choose(900, 800).other->total == Money::from_minor(900));
    CHECK(choose(800, 900).plan->strand_use == StrandUse::duplex);
    CHECK(choose(800, 800).plan->strand_use == StrandUse::duplex);
}

TEST_CASE("the smaller of the two bounds is the answer's, whichever plan is chosen") {
    const Scenario site = either_site();
    const LayoutResult chosen =
        cheaper_of(site, result(StrandUse::duplex, 2000, 900), result(StrandUse::bidirectional, 1800, 1000));
    CHECK(chosen.direct_bound == Money::from_minor(900));
    CHECK(chosen.bound == Money::from_minor(1188));
    CHECK(chosen.gap == doctest::Approx((1800.0 - 1188) / 1800));
    const LayoutResult own =
        cheaper_of(site, result(StrandUse::duplex, 2000, 1000), result(StrandUse::bidirectional, 1800, 900));
    CHECK(own.direct_bound == Money::from_minor(900));
}

TEST_CASE("a strand use without a plan bounds nothing only where that is proved") {
    const Scenario site = either_site();
    const LayoutResult proved = cheaper_of(site, none(true, 0), result(StrandUse::bidirectional, 1800, 1000));
    CHECK(proved.direct_bound == Money::from_minor(1000));
    CHECK(proved.other->impossible);
    const LayoutResult not_proved = cheaper_of(site, none(false, 400), result(StrandUse::bidirectional, 1800, 1000));
    CHECK(not_proved.direct_bound == Money::from_minor(400));
    CHECK_FALSE(not_proved.other->total.has_value());
}

TEST_CASE("where neither can be built both reasons are told") {
    const LayoutResult chosen = cheaper_of(either_site(), none(true, 0), none(false, 0));
    CHECK_FALSE(chosen.feasible());
    CHECK(chosen.reason == "duplex: no optic; bidirectional: no optic");
    CHECK_FALSE(chosen.impossible);
}

TEST_CASE("a site is settled on each strand use, and left alone where its rules say which") {
    const Scenario either = either_site();
    const StrandUseSites sites(either);
    CHECK(sites.uses().size() == 2);
    CHECK(sites.of(StrandUse::bidirectional).rules.strand_use == StrandUse::bidirectional);
    CHECK_FALSE(sites.of(StrandUse::bidirectional).rules.either_strand_use);
    const Scenario fixed = small_site::site();
    const StrandUseSites alone(fixed);
    CHECK(alone.uses() == std::vector<StrandUse>{StrandUse::duplex});
    CHECK(&alone.of(StrandUse::duplex) == &fixed);
}

}  // namespace spadework
