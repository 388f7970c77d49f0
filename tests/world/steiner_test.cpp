// The two extremes of the cable-trench problem, and the optima between them, through whole sites.
// With free cables the cheapest trenches are a Steiner tree: published optima of SteinLib's family B (Koch, Martin and
// Voss, "SteinLib: an updated library on Steiner tree problems in graphs", 2001). With free digging every cable takes
// its shortest way: Boost.Graph's Dijkstra. Between them: optima by exhaustive dynamic programming, in
// data/cable-trench/graphs/optima.tsv.

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/dijkstra_shortest_paths.hpp>
#include <doctest/doctest.h>

#include "comparison/comparison.hpp"
#include "graph/shared_cost_solver.hpp"
#include "layout/design.hpp"
#include "support/effort.hpp"
#include "world/support/small_maps.hpp"
#include "world/support/stp_site.hpp"

namespace spadework {
namespace {

const std::string data = SPADEWORK_SHARED_DIR "/data/";

LayoutResult best(const Scenario& site, LayoutKind layout, double seconds = 10) {
    DesignLimits limits;
    limits.seconds = seconds;
    return assess(site, design(layout, site, limits));
}

/// What the hub's cables to all buildings cost over their shortest ways, by Boost.Graph.
std::int64_t cents_of_shortest_ways(const Scenario& site, std::int64_t cents_per_metre) {
    using Weight = boost::property<boost::edge_weight_t, std::int64_t>;
    using Map = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS, boost::no_property, Weight>;
    Map map(site.places.size());
    for (const Segment& segment : site.segments)
        boost::add_edge(segment.from, segment.to, segment.length.millimetres(), map);
    std::vector<std::int64_t> distance(site.places.size());
    boost::dijkstra_shortest_paths(map, static_cast<std::size_t>(site.hub.place), boost::distance_map(distance.data()));
    std::int64_t millimetres = 0;
    for (const Building& building : site.buildings)
        millimetres += distance[static_cast<std::size_t>(building.place)];
    return millimetres / 1000 * cents_per_metre;
}

}  // namespace

TEST_CASE("with free cables, home runs and trunks dig a Steiner tree of the published length") {
    const auto table = read_table(data + "steiner/optima.tsv");
    if (table.empty()) {
        MESSAGE("skipped: no " << data << "steiner");
        return;
    }
    int instances = 0;
    int rows = 0;
    for (const auto& row : table) {
        if (row[0][0] != 'b' || row[0].size() != 7 || !is_tried(rows++)) continue;
        CAPTURE(row[0]);
        const auto network = read_stp(data + "steiner/" + row[0]);
        REQUIRE(network);
        const Scenario site = site_of(*network, {1, 100, 0});
        const std::int64_t optimum = std::stoll(row[4]) * 100;
        ++instances;
        for (const LayoutKind layout : {LayoutKind::home_runs, LayoutKind::trunk_one}) {
            CAPTURE(std::string(name_of(layout)));
            const LayoutResult result = best(site, layout);
            REQUIRE(result.feasible());
            CHECK(result.total.minor() == optimum);
            CHECK(result.trench == Length::from_metres(static_cast<double>(optimum) / 100));
            CHECK(result.bound.minor() <= optimum);
        }
    }
    CHECK(rows >= 6);
    CHECK(instances == tried_of(rows));
}

TEST_CASE("published optima of Steiner tree problems are never beaten, and met where problems are easy") {
    const auto table = read_table(data + "steiner/optima.tsv");
    if (table.empty()) {
        MESSAGE("skipped: no " << data << "steiner");
        return;
    }
    int instances = 0;
    int met = 0;
    int rows = 0;
    for (const auto& row : table) {
        CAPTURE(row[0]);
        const auto network = read_stp(data + "steiner/" + row[0]);
        if (!network || network->terminals.empty() || network->vertices > 4000 || !is_tried(rows++)) continue;
        graph::SharedCostProblem problem;
        problem.vertex_count = network->vertices;
        for (const StpEdge& edge : network->edges)
            problem.edges.push_back({edge.from, edge.to, static_cast<graph::Cost>(edge.weight), 0, 0});
        problem.roots.push_back({network->terminals.front(), 0});
        for (std::size_t t = 1; t < network->terminals.size(); ++t)
            problem.demands.push_back({network->terminals[t], 0, 1});
        graph::SolveLimits limits;
        limits.seconds = share_of_tests > 1 ? 3 : 0.5;
        const graph::SharedCostSolution solution = graph::solve(problem, limits);
        const std::int64_t published = std::stoll(row[4]);
        REQUIRE(solution.plan.has_value());
        CHECK(solution.plan->value >= published);
        CHECK(solution.bound <= published);
        CHECK(graph::cost_of(problem, *solution.plan) == solution.plan->value);
        CHECK(static_cast<double>(solution.plan->value) <= 1.06 * static_cast<double>(published));
        ++instances;
        met += solution.plan->value == published ? 1 : 0;
    }
    MESSAGE(met << " of " << instances << " optima met");
    // Half a second each may be cut short on a slow machine.
    CHECK(rows >= 55);
    CHECK(instances == tried_of(rows));
    CHECK(met >= effort(35));
}

TEST_CASE("with free digging, home runs cost what Boost.Graph's shortest ways cost") {
    for (int round = 0; round < effort(60); ++round) {
        CAPTURE(round);
        drawing::Dice dice(700 + static_cast<unsigned>(round));
        drawing::MapFamily family;
        family.places = static_cast<int>(dice.between(10, 60));
        family.segments = static_cast<int>(dice.between(family.places, 110));
        family.buildings = static_cast<int>(dice.between(2, 9));
        Scenario site = drawing::random_map(dice, family);
        site.labour.mobilisation = Money();
        for (Ground& ground : site.grounds)
            ground.methods[0].plant_per_metre = UnitPrice();
        for (Segment& segment : site.segments)
            segment.charges.clear();
        const LayoutResult result = best(site, LayoutKind::home_runs);
        REQUIRE(result.feasible());
        std::int64_t rest = result.total.minor();
        for (const CostLine& line : result.bill.lines)
            rest -= line.category == Category::cable ? line.amount.minor() : 0;
        const std::int64_t cable = result.total.minor() - rest;
        CHECK(cable == cents_of_shortest_ways(site, 60));
        // 6 cents of rounding for each cable is all that a bound may lose here.
        CHECK(result.total.minor() - result.bound.minor() <= 6 * static_cast<std::int64_t>(site.buildings.size()));
    }
}

TEST_CASE("between the extremes, home runs cost what exhaustive dynamic programming found") {
    const auto table = read_table(data + "cable-trench/graphs/optima.tsv");
    if (table.empty()) {
        MESSAGE("skipped: no " << data << "cable-trench");
        return;
    }
    int rows = 0;
    int equal = 0;
    for (const auto& row : table) {
        if (!is_tried(rows++)) continue;
        const double trench = std::stod(row[5]);
        const double cable = std::stod(row[6]);
        const double optimum = std::stod(row[7]);
        CAPTURE(row[0]);
        CAPTURE(trench);
        CAPTURE(cable);
        const auto network = read_stp(data + "cable-trench/graphs/" + row[0]);
        REQUIRE(network);
        // Weights with six decimals: a kilometre each and ten cents a metre make whole millimetres and 1e4 cents a
        // unit.
        const bool fractions = row[0].rfind("spanning", 0) == 0;
        const double unit = fractions ? 1e4 : 1;
        const Scenario site =
            site_of(*network, fractions ? StpPrices{1000, trench * 10, cable * 10} : StpPrices{1, trench, cable});
        const LayoutResult result = best(site, LayoutKind::home_runs, fractions ? 10 : 0.5);
        REQUIRE(result.feasible());
        const double total = static_cast<double>(result.total.minor());
        const double rounding = fractions ? 20 : 0;
        CHECK(total >= optimum * unit - rounding);
        CHECK(static_cast<double>(result.bound.minor()) <= optimum * unit + rounding);
        if (network->vertices < 100) CHECK(total <= optimum * unit + rounding);
        equal += total <= optimum * unit + rounding ? 1 : 0;
    }
    // Measured: all 37, the street maps within half a second each. Those may be cut short on a slow machine.
    MESSAGE(equal, " of ", tried_of(rows), " optima met");
    CHECK(rows == 37);
    CHECK(equal >= effort(16));
}

}  // namespace spadework
