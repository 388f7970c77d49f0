// The proof is checked against the exhaustive optimum, with the solver's prices and with prices drawn at random.

#include "graph/ring_certificate.hpp"

#include <doctest/doctest.h>

#include "graph/ring_bridges.hpp"
#include "graph/ring_solver.hpp"
#include "graph/support/random_entries.hpp"
#include "graph/support/small_rings.hpp"
#include "support/effort.hpp"

namespace {

using namespace spadework::graph;
using spadework::effort;
using namespace spadework::graph::testing::rings;

RingProblem problem_of_kind(std::mt19937& random, int kind) {
    Family family;
    family.stops = 1 + kind % 3;
    family.passages = kind % 3 == 0;
    family.second_ways = kind % 2 == 0;
    family.cuts = 6 + kind % 4;
    family.largest_opening = kind % 5 == 0 ? 0 : kind % 5 == 1 ? 4 : 40;
    return random_problem(random, family);
}

/// Reachability by another way than the library's.
bool parts_the_map(const RingProblem& p, std::size_t edge) {
    const auto grown_without = [&](std::int32_t cut) {
        std::set<VertexId> joined{p.edges[edge].tail};
        for (bool again = true; again;) {
            again = false;
            for (std::size_t e = 0; e < p.edges.size(); ++e) {
                const bool one = joined.contains(p.edges[e].tail) != joined.contains(p.edges[e].head);
                if (p.cut_of[e] == cut || !one) continue;
                joined.insert({p.edges[e].tail, p.edges[e].head});
                again = true;
            }
        }
        return joined;
    };
    return !grown_without(p.cut_of[edge]).contains(p.edges[edge].head);
}

/// A certificate that keeps the rules and is otherwise drawn at random.
ChainCertificate random_certificate(std::mt19937& random, const RingProblem& p) {
    const auto upto = [&](Cost most) { return static_cast<Cost>(random() % static_cast<std::uint64_t>(most + 1)); };
    ChainCertificate c;
    c.parts = 1 + upto(6);
    const std::size_t stops = p.stops.size();
    for (EdgePriceSet* set : {&c.joining_prices, &c.arrival_prices, &c.closing_prices})
        set->resize(stops);
    c.neighbours.resize(stops);
    for (std::size_t e = 0; e < p.edges.size(); ++e) {
        const SharedCostEdge& edge = p.edges[e];
        const Cost whole = (p.weight * edge.length + p.multiplicity * edge.passage) * c.parts;
        c.hop_charges.push_back(upto(2) == 0 ? whole : upto(whole));
        const Cost for_passes = (whole - c.hop_charges[e]) / p.longest_ring;
        c.pass_charges.push_back(upto(2) == 0 ? for_passes : upto(for_passes));
        Cost left = edge.opening * c.parts + whole - c.hop_charges[e] - p.longest_ring * c.pass_charges[e];
        const auto id = static_cast<EdgeId>(e);
        for (int draw = 0; draw < 8; ++draw) {
            EdgePriceSet& set = draw % 4 == 0 ? c.arrival_prices : draw % 4 == 1 ? c.closing_prices : c.joining_prices;
            const Cost price = draw == 7 ? left : upto(1) == 0 ? upto(left) : 0;
            left -= price;
            set[random() % stops].push_back({id, price, upto(1) == 1});
        }
    }
    for (std::size_t s = 0; s < stops; ++s) {
        c.visit_prices.push_back(upto(200) - 100);
        for (std::size_t n = 0; n < stops; ++n) {
            if (n != s && upto(1) == 1) c.neighbours[s].push_back(static_cast<std::int32_t>(n));
        }
    }
    c.entry_prices = spadework::graph::testing::random_entries(random, stops);
    return c;
}

RingProblem triangle() {
    RingProblem p;
    p.vertex_count = 3;
    p.edges = {{0, 1, 100, 10, 0}, {1, 2, 50, 4, 0}, {2, 0, 30, 6, 0}};
    p.cut_of = {0, 1, 2};
    p.stops = {1};
    p.weight = 2;
    p.longest_ring = 1;
    return p;
}

/// Every side is paid for by the one stop's two ways, and hops pay their whole charge.
ChainCertificate prices_on_the_triangle() {
    ChainCertificate c;
    c.hop_charges = {20, 8, 12};
    c.pass_charges = {0, 0, 0};
    c.joining_prices = {{{0, 100, false}, {1, 50, true}, {2, 30, true}}};
    c.arrival_prices.resize(1);
    c.closing_prices.resize(1);
    c.visit_prices = {0};
    c.neighbours = {{}};
    return c;
}

}  // namespace

TEST_CASE("bridges are the cuts that part the map") {
    std::mt19937 random(40);
    int bridges = 0;
    for (int run = 0; run < effort(300); ++run) {
        CAPTURE(run);
        const RingProblem p = problem_of_kind(random, run);
        const std::vector<char> found = rings::bridges_of(p);
        for (std::size_t e = 0; e < p.edges.size(); ++e) {
            REQUIRE((found[e] != 0) == parts_the_map(p, e));
            bridges += found[e];
        }
    }
    CHECK(bridges > effort(300));
}

TEST_CASE("a ring certificate is worth what its prices say, worked out by hand") {
    const RingProblem p = triangle();
    ChainCertificate c = prices_on_the_triangle();
    // Two ways take all three sides; either hop costs 20 by the first side or 8 + 12 by the others.
    CHECK(ring_bound_proved(p, c) == 180 + 20 + 20);
    CHECK(solve(p, SolveLimits{}).plan->value == 220);
    c.hop_charges = {0, 0, 0};  // A pass of every side is due once in the one stop's ring.
    c.pass_charges = {20, 8, 12};
    CHECK(ring_bound_proved(p, c) == 180 + 40);
    c.pass_charges = {20, 8, 0};  // The third side's charge pays for nothing.
    CHECK(ring_bound_proved(p, c) == 180 + 28);
    c.closing_prices = {{{0, 7, false}, {1, 6, false}, {2, 6, true}}};
    CHECK(!ring_bound_proved(p, c));  // The first two sides have nothing left for closings.
    c.closing_prices = {{{2, 12, true}}};
    CHECK(ring_bound_proved(p, c) == 180 + 28);  // The hop that closes the ring may take the first side for nothing.
}

TEST_CASE("what both ways pass is a bridge: paid for once, and for either pass") {
    RingProblem p = triangle();
    p.edges[2] = {2, 1, 30, 6, 0};
    p.cut_of = {0, 1, 1};  // Two ways of one stretch, which leads beyond the stop.
    p.stops = {2};
    ChainCertificate c = prices_on_the_triangle();
    c.joining_prices = {{{0, 100, false}, {1, 50, true}, {2, 30, true}}};
    CHECK(ring_bound_proved(p, c) == 100 + 30 + 2 * (20 + 8));
    c.hop_charges = {0, 0, 0};
    c.pass_charges = {20, 8, 12};
    CHECK(ring_bound_proved(p, c) == 100 + 30 + 2 * 12 + 2 * 20);
}

TEST_CASE("ring prices above what an edge may pay are refused") {
    RingProblem p = triangle();
    ChainCertificate c = prices_on_the_triangle();
    REQUIRE(ring_bound_proved(p, c));
    SUBCASE("a way costs one more") {
        ++c.joining_prices[0][0].price;
    }
    SUBCASE("the same edge is paid in the other direction") {
        c.joining_prices[0].push_back({0, 1, true});
    }
    SUBCASE("a closing hop is charged where the ways take all") {
        c.closing_prices[0].push_back({0, 1, true});
    }
    SUBCASE("passes are charged where hops take all") {
        c.pass_charges[1] = 1;
    }
    SUBCASE("a pass below nothing") {
        c.pass_charges[1] = -1;
    }
    SUBCASE("passes of rings longer than one stop come to more than a cable pays") {
        c.hop_charges = {0, 0, 0};
        c.pass_charges = {20, 8, 12};
        REQUIRE(ring_bound_proved(p, c));
        p.longest_ring = 2;
    }
    SUBCASE("no charges for passes") {
        c.pass_charges.clear();
    }
    SUBCASE("no prices for closing hops") {
        c.closing_prices.clear();
    }
    CHECK(!ring_bound_proved(p, c));
}

TEST_CASE("the solver's certificate proves its bound of rings, and optimum and plan lie above it") {
    std::mt19937 random(41);
    int proved = 0;
    constexpr int kRuns = effort(400);
    for (int run = 0; run < kRuns; ++run) {
        CAPTURE(run);
        const RingProblem p = problem_of_kind(random, run);
        const Cost optimum = Exhaustive(p).run();
        const RingSolution s = solve(p, SolveLimits{});
        REQUIRE(s.plan);
        REQUIRE(s.plan->value >= optimum);
        REQUIRE(s.bound <= optimum);
        REQUIRE(ring_bound_proved(p, s.certificate) == s.bound);
        proved += s.bound == optimum ? 1 : 0;
    }
    MESSAGE("optimum proved in " << proved << " of " << kRuns);
    CHECK(proved >= kRuns * 80 / 100);
}

TEST_CASE("whatever prices keep the rules prove no more than the best rings cost") {
    std::mt19937 random(43);
    for (int run = 0; run < effort(600); ++run) {
        CAPTURE(run);
        const RingProblem p = problem_of_kind(random, run);
        const Cost optimum = Exhaustive(p).run();
        for (int draw = 0; draw < 4; ++draw) {
            const std::optional<Cost> bound = ring_bound_proved(p, random_certificate(random, p));
            REQUIRE(bound);
            REQUIRE(*bound <= optimum);
        }
    }
}
