#include "strands/strand_need.hpp"

#include <doctest/doctest.h>

namespace spadework {
namespace {

struct Policy {
    double spare_percent = 0;
    int spare_least = 0;
    double headroom_percent = 0;
};

StrandNeed need_of(int in_use, const Policy& policy) {
    Rules rules;
    rules.spare = {Percent::from_percent(policy.spare_percent), policy.spare_least, 0};
    Growth growth;
    growth.headroom = Percent::from_percent(policy.headroom_percent);
    return trunk_need(in_use, rules, growth);
}

}  // namespace

TEST_CASE("20 % for growth and 5 % spare of 40 strands make 50 (SPA-1, MIL-HDBK-2051(SH) 5.3.1.2.3)") {
    const StrandNeed need = need_of(40, {5, 0, 20});
    CHECK(need.headroom == 8);
    CHECK(need.spare == 2);
    CHECK(need.total() == 50);
}

TEST_CASE("12 strands and 25 % spare make 15, 16 make 20 (SPA-2, UFGS-40 95 33.23 20)") {
    CHECK(need_of(12, {25, 0, 0}).total() == 15);
    CHECK(need_of(16, {25, 0, 0}).total() == 20);
}

TEST_CASE("120 pairs times 1.30 make 156 (SPA-3, Illinois State University Design Guidelines 27 11 00)") {
    CHECK(need_of(120, {30, 0, 0}).total() == 156);
}

TEST_CASE("shares are rounded up, and a share that comes out whole is not") {
    CHECK(need_of(10, {20, 0, 0}).spare == 2);
    CHECK(need_of(11, {20, 0, 0}).spare == 3);
    CHECK(need_of(2, {0, 0, 1}).headroom == 1);
}

TEST_CASE("the least spare counts where the share is less, and the share where it is more") {
    CHECK(need_of(10, {20, 3, 0}).spare == 3);
    CHECK(need_of(20, {20, 3, 0}).spare == 4);
}

TEST_CASE("a drop takes its own spare strands and none for growth") {
    Rules rules;
    rules.spare.drop_spare_least = 2;
    const StrandNeed need = drop_need(4, rules);
    CHECK(need.spare == 2);
    CHECK(need.headroom == 0);
    CHECK(need.total() == 6);
}

TEST_CASE("a duplex link takes two strands and a one-strand link one, over all rates of a building") {
    Building building;
    building.links = {{BitRate::from_megabits(1000), 2}, {BitRate::from_megabits(10000), 1}};
    Rules rules;
    CHECK(link_count(building) == 3);
    CHECK(strands_in_use(building, rules) == 6);
    rules.strand_use = StrandUse::bidirectional;
    CHECK(strands_in_use(building, rules) == 3);
}

}  // namespace spadework
