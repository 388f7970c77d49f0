#include "graph/chain_entries.hpp"

#include <doctest/doctest.h>

namespace {

using namespace spadework::graph::chains;

/// Four stops; of hops [to][from], the source last.
std::vector<double> no_hops() {
    return std::vector<double>(4 * 5, 0.0);
}

double& hop(std::vector<double>& hops, std::size_t from, std::size_t to) {
    return hops[to * 5 + from];
}

/// Three stops that one chain of two would visit in a round, and another next to the source.
std::vector<double> too_few_entries() {
    std::vector<double> hops = no_hops();
    hop(hops, 4, 0) = 1.0;
    hop(hops, 4, 1) = 1.0;
    hop(hops, 1, 2) = 0.5;
    hop(hops, 3, 2) = 0.5;
    hop(hops, 1, 3) = 0.5;
    hop(hops, 2, 3) = 0.5;
    return hops;
}

}  // namespace

TEST_CASE("a group is found that hops enter less often than chains must") {
    EntryGroups groups(4, 2);
    groups.find_more(too_few_entries());
    REQUIRE(groups.size() == 1);
    CHECK(groups.stops_of(0) == std::vector<std::int32_t>{1, 2, 3});  // Two chains must, one hop does.
    CHECK(groups.missing(too_few_entries()) == std::vector<double>{1.0});
    groups.find_more(too_few_entries());
    CHECK(groups.size() == 1);
}

TEST_CASE("no group is found where hops enter often enough") {
    std::vector<double> hops = no_hops();
    hop(hops, 4, 0) = hop(hops, 0, 1) = hop(hops, 4, 2) = hop(hops, 2, 3) = 1.0;
    EntryGroups groups(4, 2);
    groups.find_more(hops);
    CHECK(groups.size() == 0);
}

TEST_CASE("hops into a group earn its price from outside alone") {
    EntryGroups groups(4, 2);
    groups.find_more(too_few_entries());
    std::vector<double> costs(4 * 5, 10.0);
    groups.take_off({3.0}, costs);
    CHECK(hop(costs, 4, 1) == 7.0);
    CHECK(hop(costs, 0, 3) == 7.0);
    CHECK(hop(costs, 1, 3) == 10.0);
    CHECK(hop(costs, 1, 0) == 10.0);
    CHECK(groups.worth({3.0}) == 6.0);
    CHECK(groups.missing(std::vector<RouteHop>{{-1, 0}, {0, 1}, {1, 2}, {2, 3}}) == std::vector<double>{1.0});
}

TEST_CASE("steps along missing entries end at nothing") {
    std::vector<double> prices{1.0, 1.0, 0.0};
    const std::vector<double> missing{2.0, -3.0, -1.0};
    CHECK(EntryGroups::squared_step(missing, prices) == 13.0);
    EntryGroups::step(missing, 0.5, prices);
    CHECK(prices == std::vector<double>{2.0, 0.0, 0.0});
}
