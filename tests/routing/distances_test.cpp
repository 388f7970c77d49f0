#include "routing/distances.hpp"

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

using drawing::Dice;

/// Bellman and Ford: relax every edge both ways as often as there are places.
std::vector<std::optional<std::int64_t>> distances_by_relaxing(const Network& network, PlaceIndex from) {
    std::vector<std::optional<std::int64_t>> distance(static_cast<std::size_t>(network.vertex_count));
    distance[static_cast<std::size_t>(from)] = 0;
    const auto relax = [&](graph::VertexId a, graph::VertexId b, std::int64_t length) {
        const auto& known = distance[static_cast<std::size_t>(a)];
        auto& other = distance[static_cast<std::size_t>(b)];
        if (known && (!other || *known + length < *other)) other = *known + length;
    };
    for (graph::VertexId round = 0; round < network.vertex_count; ++round) {
        for (const auto& edge : network.edges) {
            relax(edge.tail, edge.head, edge.length);
            relax(edge.head, edge.tail, edge.length);
        }
    }
    return distance;
}

Scenario random_map(Dice& dice) {
    Scenario site = drawing::bare_site();
    const auto places = dice.between(1, 14);
    for (int p = 0; p < places; ++p)
        drawing::add_place(site);
    const auto segments = dice.between(0, 24);
    for (int s = 0; s < segments; ++s) {
        const auto a = static_cast<PlaceIndex>(dice.between(0, places));
        const auto b = static_cast<PlaceIndex>(dice.between(0, places));
        drawing::add_segment(site, a, b, static_cast<double>(dice.between(1, 9)));
        if (dice.one_in(6)) site.segments.back().ban = "private";
        if (dice.one_in(4)) site.segments.back().duct_room = 3;
    }
    return site;
}

}  // namespace

TEST_CASE("shortest ways agree with Bellman and Ford on random maps, and each way walks to its place") {
    Dice dice(11);
    for (int round = 0; round < 600; ++round) {
        const Scenario site = random_map(dice);
        const Network network = network_of(site);
        const auto from = static_cast<PlaceIndex>(dice.between(0, network.vertex_count - 1));
        const ShortestWays ways = shortest_ways(network, from);
        const auto expected = distances_by_relaxing(network, from);
        for (PlaceIndex to = 0; to < network.vertex_count; ++to) {
            const auto& length = ways.length[static_cast<std::size_t>(to)];
            REQUIRE(length.has_value() == expected[static_cast<std::size_t>(to)].has_value());
            const auto way = way_to(ways, network, to);
            if (!length) {
                CHECK(way.empty());
                continue;
            }
            CHECK(length->millimetres() == *expected[static_cast<std::size_t>(to)]);
            PlaceIndex at = from;
            std::int64_t walked = 0;
            for (const graph::EdgeId e : way) {
                const auto& edge = network.edges[static_cast<std::size_t>(e)];
                REQUIRE((edge.tail == at || edge.head == at));
                at = edge.tail == at ? edge.head : edge.tail;
                walked += edge.length;
            }
            CHECK(at == to);
            CHECK(walked == length->millimetres());
        }
    }
}

TEST_CASE("of the ways of one segment the one that costs least to open and pass once is taken") {
    Scenario site = drawing::row_site(1, 10);
    site.segments[0].duct_room = 1;
    const Network network = network_of(site);
    REQUIRE(network.edges.size() == 2);
    CHECK(way_to(shortest_ways(network, 0), network, 1) == std::vector<graph::EdgeId>{1});
    site.existing_duct.plant_per_metre = UnitPrice::from_minor(2000);
    site.grounds[0].methods[0].pull_hours_per_metre = 0.1;
    const Network as_dear = network_of(site);
    CHECK(way_to(shortest_ways(as_dear, 0), as_dear, 1) == std::vector<graph::EdgeId>{1});
    site.existing_duct.plant_per_metre = UnitPrice::from_minor(9000);
    const Network dearer = network_of(site);
    CHECK(way_to(shortest_ways(dearer, 0), dearer, 1) == std::vector<graph::EdgeId>{0});
}

}  // namespace spadework
