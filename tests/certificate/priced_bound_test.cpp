#include "certificate/priced_bound.hpp"

#include <doctest/doctest.h>

#include "certificate/support/certified_sites.hpp"

namespace spadework::certificate {
namespace {

/// Two buildings in a row behind the hub: segments of opening 100 and 60, length 10 and 5, in whole minor units.
RoutesEvidence row_evidence() {
    RoutesEvidence evidence;
    evidence.constant = Money::from_minor(1000);
    evidence.edges = {{0, 0, 100, 10, 0, -1, 0}, {1, 0, 60, 5, 0, -1, 0}};
    evidence.demands = {{1, 2, 0}, {2, 3, 0}};
    evidence.roots = {{0, 7}};
    return evidence;
}

Money bound_of(const RoutesEvidence& evidence) {
    const Scenario site = drawing::row_site(2, 10);
    CHECK(price_fault(site, evidence).empty());
    const auto bounds = direct_bounds(site, evidence);
    REQUIRE(bounds.size() == 1);
    REQUIRE(bounds.front());
    return *bounds.front();
}

}  // namespace

TEST_CASE("distances, prices, root and constant add up as by hand") {
    RoutesEvidence evidence = row_evidence();
    evidence.prices = {{{}, {}}};
    CHECK(bound_of(evidence).minor() == 1000 + 7 + 2 * 10 + 3 * 15);
    evidence.prices = {{{{0, 40, false}}, {{0, 60, false}, {1, 60, false}}}};
    CHECK(bound_of(evidence).minor() == 1000 + 7 + 2 * 10 + 3 * 15 + 160);
    evidence.prices = {{{}, {}}, {{{0, 40, false}}, {}}};  // The better of two sets.
    CHECK(bound_of(evidence).minor() == 1000 + 7 + 2 * 10 + 3 * 15 + 40);
    evidence.prices = {{{{0, 40, true}}, {}}};  // Nobody runs that way.
    CHECK(bound_of(evidence).minor() == 1000 + 7 + 2 * 10 + 3 * 15);
}

TEST_CASE("parts and units are rounded in the bound's favour only as plans' costs allow") {
    RoutesEvidence evidence = row_evidence();
    evidence.parts = 10;
    evidence.prices = {{{{0, 401, false}}, {}}};
    CHECK(bound_of(evidence).minor() == 1000 + 7 + 65 + 45);  // 40.1 rounds up to the next 5: every cost is so many.
    evidence.demands[0].weight = 0;
    evidence.demands[1].weight = 0;
    CHECK(bound_of(evidence).minor() == 1000 + 7 + 60);  // Openings alone: multiples of 20.
    evidence.units_a_minor = 10;
    CHECK(bound_of(evidence).minor() == 1000 + 6);
}

TEST_CASE("what room in ducts counts too much is taken off, and not more than there is") {
    RoutesEvidence evidence = row_evidence();
    evidence.prices = {{{}, {}}};
    evidence.edges[0].room = 2;
    evidence.edges[0].room_price = 10;
    CHECK(bound_of(evidence).minor() == 1000 + 7 + 65 - 20);
    evidence.edges[0].room_price = 1'000'000;
    CHECK(bound_of(evidence).minor() == 1000);
}

TEST_CASE("prices above an opening are told, direction by direction and group by group") {
    const Scenario site = drawing::row_site(2, 10);
    RoutesEvidence evidence = row_evidence();
    evidence.prices = {{{{0, 100, false}}, {{0, 100, true}}}};
    CHECK(price_fault(site, evidence).empty());  // Opposite ways of one group never meet on an edge.
    evidence.prices = {{{{0, 60, false}}, {{0, 41, false}}}};
    CHECK(price_fault(site, evidence).find("segment s0000") != std::string::npos);
    evidence.prices = {{{{0, 100, false}}, {{0, 100, true}}}};
    evidence.edges[1].passage = 4;
    evidence.demands[0].multiplicity = 1;  // Now the two measure ways apart.
    CHECK_FALSE(price_fault(site, evidence).empty());
}

TEST_CASE("the largest figures end in a bound and not in an overflow") {
    RoutesEvidence evidence = row_evidence();
    const graph::Cost most = graph::Cost{1} << 62U;
    for (CertifiedEdge& edge : evidence.edges)
        edge = {edge.segment, 0, most, most, most, -1, 0};
    for (graph::Demand& demand : evidence.demands)
        demand = {demand.at, most, most};
    evidence.roots[0].cost = most;
    evidence.parts = std::int64_t{1} << 40U;
    evidence.prices = {{{{0, most, false}, {0, most, false}, {0, most, true}}, {{1, most, false}}}};
    const Scenario site = drawing::row_site(2, 10);
    CHECK(price_fault(site, evidence).empty());
    CHECK(direct_bounds(site, evidence).front()->minor() <= 1'000'000'000'000'000'000);
}

TEST_CASE("a root from which a demand cannot be reached has no bound") {
    Scenario site = drawing::row_site(2, 10);
    drawing::add_place(site);
    RoutesEvidence evidence = row_evidence();
    evidence.prices = {{{}, {}}};
    evidence.roots.push_back({3, 0});
    const auto bounds = direct_bounds(site, evidence);
    CHECK(bounds[0]);
    CHECK_FALSE(bounds[1]);
}

namespace {

/// One building behind two segments side by side: of opening 100 and 130 and length 10 and 2.
RoutesEvidence pair_evidence() {
    RoutesEvidence evidence;
    evidence.constant = Money::from_minor(1000);
    evidence.edges = {{0, 0, 100, 10, 0, -1, 0}, {1, 0, 130, 2, 0, -1, 0}};
    evidence.demands = {{1, 1, 0}};
    evidence.roots = {{0, 7}};
    evidence.prices = {{{}}};
    return evidence;
}

Scenario pair_site() {
    Scenario site = drawing::row_site(1, 10);
    drawing::add_segment(site, 0, 1, 2);
    return site;
}

graph::EdgePriceSet one_price(graph::EdgeId edge, graph::Cost price) {
    return {{{edge, price, false}}};
}

std::int64_t pair_bound(const RoutesEvidence& evidence) {
    CHECK(price_fault(pair_site(), evidence).empty());
    return direct_bounds(pair_site(), evidence).front().value().minor();
}

}  // namespace

TEST_CASE("of plans split by an edge the dearer lot does not count, and what a lot opens does") {
    RoutesEvidence evidence = pair_evidence();
    CHECK(pair_bound(evidence) == 1000 + 7 + 2);
    evidence.splits = {{{{0, true}}, one_price(1, 8), 1}, {{{0, false}}, one_price(1, 130), 1}};
    CHECK(pair_bound(evidence) == 1000 + 7 + 100 + 10);  // Without the first 132.
    evidence.splits[1].prices = one_price(1, 20);
    CHECK(pair_bound(evidence) == 1000 + 7 + 22);
    evidence.splits[1] = {{{0, false}}, one_price(1, 75), 3};  // A third of a unit each: 27, to be rounded to 28.
    CHECK(pair_bound(evidence) == 1000 + 7 + 28);
    evidence.prices = {one_price(1, 60)};
    CHECK(pair_bound(evidence) == 1000 + 7 + 28);
}

TEST_CASE("a lot without any plan does not count, and where no lot has one there is none") {
    RoutesEvidence evidence = pair_evidence();
    const graph::EdgePriceSet none = {{}};
    evidence.splits = {{{{0, true}}, none, 1}, {{{0, false}, {1, true}}, none, 1}, {{{0, false}, {1, false}}, none, 1}};
    CHECK(pair_bound(evidence) == 1000 + 7 + 100 + 2);
    evidence.roots.push_back({2, 0});
    Scenario site = pair_site();
    drawing::add_place(site);
    CHECK_FALSE(direct_bounds(site, evidence)[1]);
}

TEST_CASE("an edge that a lot has paid for is not paid for again by prices") {
    RoutesEvidence evidence = pair_evidence();
    evidence.splits = {{{{0, true}}, one_price(0, 1), 1}, {{{0, false}}, {{}}, 1}};
    CHECK(price_fault(pair_site(), evidence).find("opening of 0") != std::string::npos);
    evidence.splits[0].prices = one_price(1, 131);
    CHECK(price_fault(pair_site(), evidence).find("opening of 130") != std::string::npos);
    evidence.splits[0].prices = {};
    CHECK(price_fault(pair_site(), evidence).find("is for 0 demands") != std::string::npos);
    evidence.splits.pop_back();
    CHECK_FALSE(price_fault(pair_site(), evidence).empty());
}

}  // namespace spadework::certificate
