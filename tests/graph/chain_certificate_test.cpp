// The proof is checked against the exhaustive optimum, with the solver's prices and with prices drawn at random.

#include "graph/chain_certificate.hpp"

#include <doctest/doctest.h>

#include "graph/chain_bound.hpp"
#include "graph/chain_solver.hpp"
#include "graph/support/random_entries.hpp"
#include "graph/support/small_chains.hpp"
#include "support/effort.hpp"

namespace {

using namespace spadework::graph;
using spadework::effort;
using namespace spadework::graph::testing;

Cost charge_on(const ChainProblem& p, const SharedCostEdge& e) {
    return p.weight * e.length + p.multiplicity * e.passage;
}

ChainProblem problem_of_kind(std::mt19937& random, int kind) {
    Family family{.vertices = 6, .edges = 8, .stops = 1 + kind % 4, .passages = kind % 3 == 0};
    family.largest_opening = kind % 5 == 0 ? 0 : kind % 5 == 1 ? 4 : 40;
    ChainProblem p = random_problem(random, family);
    if (kind % 7 == 0) p.longest_chain = 1;
    if (kind % 11 == 0) p.stops[0] = p.source;
    if (kind % 13 == 0) p.stops.back() = p.stops[0];
    if (kind % 17 == 0) p.end_saving = 100;
    return p;
}

/// A certificate that keeps the rules and is otherwise drawn at random.
ChainCertificate random_certificate(std::mt19937& random, const ChainProblem& p) {
    const auto upto = [&](Cost most) { return static_cast<Cost>(random() % static_cast<std::uint64_t>(most + 1)); };
    ChainCertificate c;
    c.parts = 1 + upto(6);
    const std::size_t stops = p.stops.size();
    c.joining_prices.resize(stops);
    c.arrival_prices.resize(stops);
    c.neighbours.resize(stops);
    for (std::size_t e = 0; e < p.edges.size(); ++e) {
        const Cost whole = charge_on(p, p.edges[e]) * c.parts;
        c.hop_charges.push_back(upto(whole));
        Cost left = p.edges[e].opening * c.parts + whole - c.hop_charges[e];
        const auto id = static_cast<EdgeId>(e);
        for (std::size_t s = 0; s < stops; ++s) {
            const Cost price = upto(left / 2);
            left -= price;
            c.arrival_prices[s].push_back({id, price, upto(1) == 1});
        }
        Cost each_way[2] = {left, left};
        for (std::size_t s = 0; s < stops; ++s) {
            const auto way = static_cast<std::size_t>(upto(1));
            const Cost price = upto(each_way[way]);
            each_way[way] -= price;
            c.joining_prices[s].push_back({id, price, way == 1});
        }
    }
    for (std::size_t s = 0; s < stops; ++s) {
        c.visit_prices.push_back(upto(200) - 100);
        for (std::size_t n = 0; n < stops; ++n) {
            if (n != s && upto(1) == 1) c.neighbours[s].push_back(static_cast<std::int32_t>(n));
        }
    }
    c.entry_prices = random_entries(random, stops);
    return c;
}

ChainProblem two_stops_on_a_line() {
    ChainProblem p;  // 0 -- 1 -- 2
    p.vertex_count = 3;
    p.edges = {{0, 1, 100, 10, 0}, {1, 2, 50, 4, 0}};
    p.stops = {1, 2};
    p.weight = 2;
    p.longest_chain = 2;
    return p;
}

/// Stop 1 pays for the first edge, stop 2 for the second, and hops pay their whole charge.
ChainCertificate prices_on_the_line() {
    ChainCertificate c;
    c.hop_charges = {20, 8};
    c.joining_prices = {{{0, 100, false}}, {{1, 50, false}}};
    c.arrival_prices.resize(2);
    c.visit_prices = {0, 0};
    c.neighbours = {{1}, {0}};
    return c;
}

}  // namespace

TEST_CASE("the solver's certificate proves its bound, and optimum and plan lie above it") {
    std::mt19937 random(41);
    int proved = 0;
    int found = 0;
    constexpr int kRuns = effort(1200);
    for (int run = 0; run < kRuns; ++run) {
        CAPTURE(run);
        const ChainProblem p = problem_of_kind(random, run);
        const Cost optimum = exhaustive_optimum(p);
        const ChainSolution s = solve(p, SolveLimits{});
        REQUIRE(s.plan);
        REQUIRE(s.plan->value >= optimum);
        REQUIRE(s.bound <= optimum);
        REQUIRE(chain_bound_proved(p, s.certificate) == s.bound);
        found += s.plan->value == optimum ? 1 : 0;
        proved += s.bound == optimum ? 1 : 0;
    }
    MESSAGE("optimum found in " << found << " and proved in " << proved << " of " << kRuns);
    CHECK(found >= kRuns * 99 / 100);
    CHECK(proved >= kRuns * 97 / 100);
}

TEST_CASE("whatever prices keep the rules prove no more than the optimum") {
    std::mt19937 random(43);
    for (int run = 0; run < effort(1500); ++run) {
        CAPTURE(run);
        const ChainProblem p = problem_of_kind(random, run);
        const std::optional<Cost> bound = chain_bound_proved(p, random_certificate(random, p));
        REQUIRE(bound);
        REQUIRE(*bound <= exhaustive_optimum(p));
    }
}

TEST_CASE("a certificate is worth what its prices say, worked out by hand") {
    const ChainProblem p = two_stops_on_a_line();
    ChainCertificate c = prices_on_the_line();
    // Joining 100 + 50; the cheapest two steps are one chain through 1 to 2: 20 + 8.
    CHECK(chain_bound_proved(p, c) == 178);
    c.visit_prices = {
        3, -40};  // Two visits to stop 1 cost too much more: 20 + 20 on chains of their own would be two ends.
    CHECK(chain_bound_proved(p, c) == 178);
    c.hop_charges = {10, 8};  // Half of the first charge pays for opening, where nobody asks for it.
    CHECK(chain_bound_proved(p, c) == 168);
    c.joining_prices[0][0].price = 110;
    CHECK(chain_bound_proved(p, c) == 178);
}

TEST_CASE("what entries earn is added back as often as chains must enter, worked out by hand") {
    ChainProblem p = two_stops_on_a_line();
    ChainCertificate c = prices_on_the_line();
    c.entry_prices = {{{0, 1}, 5}};  // The one chain enters once: it earns 5, and 5 are added back.
    CHECK(chain_bound_proved(p, c) == 178);
    c.entry_prices[0].price = 30;  // Two chains are cheaper now: 20 + 28 less twice 30, and 30 are added back.
    CHECK(chain_bound_proved(p, c) == 168);
    c.entry_prices[0].stops = {1};  // The hop from stop 1 enters as well.
    CHECK(chain_bound_proved(p, c) == 178);
    p.longest_chain = 1;
    c.entry_prices[0].stops = {0, 1};  // Two chains must enter: 20 + 28 whatever they earn.
    CHECK(chain_bound_proved(p, c) == 198);
}

TEST_CASE("prices above what an edge may pay are refused") {
    const ChainProblem p = two_stops_on_a_line();
    ChainCertificate c = prices_on_the_line();
    REQUIRE(chain_bound_proved(p, c));
    SUBCASE("a stop's way costs one more") {
        ++c.joining_prices[0][0].price;
    }
    SUBCASE("another stop pays the same way on the same edge") {
        c.joining_prices[1].push_back({0, 1, false});
    }
    SUBCASE("an arrival is charged where the ways take all") {
        c.arrival_prices[1].push_back({0, 1, true});
    }
    SUBCASE("the parts are fewer than the prices were made for") {
        for (auto& h : c.hop_charges)
            h *= 2;
        for (auto& of_stop : c.joining_prices)
            of_stop[0].price *= 2;
        c.parts = 2;
        REQUIRE(chain_bound_proved(p, c) == 178);
        c.parts = 1;
    }
    SUBCASE("hops pay more than a cable does") {
        ++c.hop_charges[0];
    }
    CHECK_FALSE(chain_bound_proved(p, c));
}

TEST_CASE("both ways along an edge may each use all it may pay, arrivals only what is left") {
    const ChainProblem p = two_stops_on_a_line();
    ChainCertificate c = prices_on_the_line();
    c.joining_prices[1].push_back({0, 100, true});
    CHECK(chain_bound_proved(p, c) == 178);
    c.arrival_prices[0].push_back({0, 1, false});
    CHECK_FALSE(chain_bound_proved(p, c));
}

TEST_CASE("certificates with figures out of range are refused") {
    const ChainProblem p = two_stops_on_a_line();
    ChainCertificate c = prices_on_the_line();
    SUBCASE("no parts") {
        c.parts = 0;
    }
    SUBCASE("a negative hop charge") {
        c.hop_charges[1] = -1;
    }
    SUBCASE("a hop charge missing") {
        c.hop_charges.pop_back();
    }
    SUBCASE("a negative price") {
        c.joining_prices[0][0].price = -1;
    }
    SUBCASE("an unknown edge") {
        c.arrival_prices[0].push_back({2, 0, false});
    }
    SUBCASE("a stop without its list") {
        c.joining_prices.pop_back();
    }
    SUBCASE("a visit missing") {
        c.visit_prices.pop_back();
    }
    SUBCASE("a visit dearer than sums can take") {
        c.visit_prices[0] = std::numeric_limits<Cost>::min();
    }
    SUBCASE("an entry below nothing") {
        c.entry_prices = {{{0}, -1}};
    }
    SUBCASE("an entry dearer than sums can take") {
        c.entry_prices = {{{0}, std::numeric_limits<Cost>::max()}};
    }
    SUBCASE("an entry into nothing") {
        c.entry_prices = {{{}, 1}};
    }
    SUBCASE("an entry into a stop twice") {
        c.entry_prices = {{{0, 0}, 1}};
    }
    SUBCASE("an entry into an unknown stop") {
        c.entry_prices = {{{0, 2}, 1}};
    }
    SUBCASE("a stop that remembers itself") {
        c.neighbours[0] = {0};
    }
    SUBCASE("a neighbour twice") {
        c.neighbours[0] = {1, 1};
    }
    SUBCASE("an unknown neighbour") {
        c.neighbours[0] = {2};
    }
    CHECK_FALSE(chain_bound_proved(p, c));
}

TEST_CASE("a problem that is not well formed has no proof") {
    ChainProblem p = two_stops_on_a_line();
    p.longest_chain = 0;
    CHECK_FALSE(chain_bound_proved(p, prices_on_the_line()));
}

TEST_CASE("where a stop is cut off any bound holds") {
    ChainProblem p = two_stops_on_a_line();
    p.vertex_count = 4;
    p.stops = {1, 3};
    ChainCertificate c = prices_on_the_line();
    CHECK(chain_bound_proved(p, c) == std::numeric_limits<Cost>::max());
}

TEST_CASE("prices prove no less than a split of the charge between opening and hopping does") {
    std::mt19937 random(47);
    for (int run = 0; run < effort(25); ++run) {
        CAPTURE(run);
        const ChainProblem p = random_problem(random, {.vertices = 25, .edges = 45, .stops = 8, .largest_opening = 60});
        const ChainSolution s = solve(p, SolveLimits{});
        REQUIRE(s.plan);
        CHECK(s.bound >= chains::lower_bound(p, *s.plan, SolveLimits{}).cost);
    }
}
