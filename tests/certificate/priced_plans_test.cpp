#include "certificate/priced_plans.hpp"

#include <doctest/doctest.h>

namespace spadework::certificate {
namespace {

using Choices = std::vector<graph::EdgeChoice>;

RoutesEvidence split_into(const std::vector<Choices>& all) {
    RoutesEvidence evidence;
    evidence.edges = {{0, 0, 100, 10, 0, -1, 0}, {1, 0, 60, 5, 0, -1, 0}, {2, 0, 7, 5, 0, -1, 0}};
    evidence.parts = 3;
    evidence.prices = {{{{0, 40, false}}}};
    for (const Choices& choices : all)
        evidence.splits.push_back({choices, {{}}, 5});
    return evidence;
}

bool are_all(const std::vector<Choices>& all) {
    return split_fault(split_into(all)).empty();
}

}  // namespace

TEST_CASE("splits are all plans where each choice has both its sides, in any order") {
    CHECK(are_all({}));
    CHECK(are_all({{}}));
    CHECK(are_all({{{0, true}}, {{0, false}}}));
    CHECK(are_all({{{0, false}}, {{0, true}}}));
    CHECK(are_all({{{0, true}}, {{0, false}, {2, true}}, {{0, false}, {2, false}}}));
    CHECK(
        are_all({{{0, true}, {1, false}}, {{0, false}, {2, true}}, {{0, true}, {1, true}}, {{0, false}, {2, false}}}));
}

TEST_CASE("splits that leave plans out are told") {
    CHECK_FALSE(are_all({{{0, true}}}));
    CHECK_FALSE(are_all({{{0, true}}, {{0, true}}}));
    CHECK_FALSE(are_all({{{0, true}}, {{1, false}}}));
    CHECK_FALSE(are_all({{{0, true}}, {{0, false}, {2, true}}}));
    CHECK_FALSE(are_all({{{0, true}}, {{0, false}, {2, true}}, {{0, false}, {1, false}}}));
    CHECK_FALSE(are_all({{}, {{0, true}}, {{0, false}}}));
    CHECK_FALSE(are_all({{{0, true}}, {{0, false}}, {{0, false}, {1, true}}}));
}

TEST_CASE("an edge that is not there, or is chosen again, is told") {
    CHECK(split_fault(split_into({{{3, true}}, {{3, false}}})).find("edge 3") != std::string::npos);
    CHECK_FALSE(are_all({{{-1, true}}, {{-1, false}}}));
    CHECK_FALSE(are_all({{{0, true}, {0, true}}, {{0, true}, {0, false}}, {{0, false}}}));
}

TEST_CASE("of a part the edges in use are paid, those out of use closed, and prices have what is left") {
    const RoutesEvidence evidence = split_into({{{0, true}, {2, true}}, {{0, true}, {2, false}}, {{0, false}}});
    const PricedPlans both = plans_of(evidence, evidence.splits[0]);
    CHECK(both.opened == 107);
    CHECK(both.openings == std::vector<graph::Cost>{0, 60, 0});
    CHECK(both.closed == std::vector<char>{0, 0, 0});
    CHECK(both.parts == 5);
    const PricedPlans one = plans_of(evidence, evidence.splits[1]);
    CHECK(one.opened == 100);
    CHECK(one.closed == std::vector<char>{0, 0, 1});
    const PricedPlans all = all_plans(evidence, 0);
    CHECK(all.opened == 0);
    CHECK(all.openings == std::vector<graph::Cost>{100, 60, 7});
    CHECK(all.parts == 3);
}

}  // namespace spadework::certificate
