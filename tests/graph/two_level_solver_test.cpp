// Checked against an exhaustive solver of separate simple code: every set of open edges, every set of open sites, every
// assignment. No published instances exist for this problem; the special cases are compared with shortest paths.

#include "graph/two_level_solver.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include <doctest/doctest.h>

#include "graph/two_level_even.hpp"
#include "graph/two_level_proof.hpp"
#include "support/effort.hpp"

namespace {

using namespace spadework::graph;
using spadework::effort;

constexpr Cost kNever = std::numeric_limits<Cost>::max() / 4;

struct Family {
    VertexId vertices = 6;
    std::int32_t edges = 9;
    std::int32_t demands = 4;
    std::int32_t sites = 3;
    bool direct = true;
    bool passages = false;
    bool uneven_weights = true;
    Cost largest_opening = 40;
    std::int32_t most_sites = 0;  ///< 0: any from 0 to 3.
};

TwoLevelProblem random_problem(std::mt19937& random, const Family& family) {
    const auto below = [&](Cost n) { return static_cast<Cost>(random() % static_cast<std::uint32_t>(n)); };
    TwoLevelProblem p;
    p.vertex_count = family.vertices;
    for (std::int32_t e = 0; e < family.edges; ++e) {
        SharedCostEdge edge;
        edge.tail = e + 1 < family.vertices ? e + 1 : static_cast<VertexId>(below(family.vertices));
        edge.head = static_cast<VertexId>(e + 1 < family.vertices ? below(e + 1) : below(family.vertices));
        edge.opening = below(family.largest_opening + 1);
        edge.length = below(10);
        edge.passage = family.passages ? below(8) : 0;
        p.edges.push_back(edge);
    }
    p.source = static_cast<VertexId>(below(family.vertices));
    for (std::int32_t d = 0; d < family.demands; ++d) {
        TwoLevelDemand demand;
        demand.at = static_cast<VertexId>(below(family.vertices));
        demand.weight = family.uneven_weights ? below(4) : 2;
        demand.multiplicity = 1 + below(2);
        demand.units = below(5);
        if (family.direct && below(2) == 0) demand.direct = DirectService{below(4), 1, below(21) - 10};
        p.demands.push_back(demand);
    }
    for (std::int32_t s = 0; s < family.sites; ++s) {
        p.sites.push_back({static_cast<VertexId>(below(family.vertices)), below(15)});
    }
    p.sizes = {{4, 1, 1, 1}, {9, 2, 1, 5}, {16, 2 + below(2), 1 + below(2), 9}};
    if (below(2) == 0) {
        for (Site& site : p.sites)
            site.feeder_extra = {below(3), below(9), below(20)};
    }
    p.spare_units = below(2);
    p.spare_share = static_cast<double>(below(3)) * 0.25;
    p.fewest_sites = static_cast<std::int32_t>(below(2));
    p.most_sites = p.fewest_sites + static_cast<std::int32_t>(below(3));
    if (family.most_sites > 0) {
        p.fewest_sites = 0;
        p.most_sites = family.most_sites;
    }
    return p;
}

/// All-pairs distances over the open edges for one charge (Floyd 1962, Warshall 1962).
std::vector<std::vector<Cost>> distances(const TwoLevelProblem& p, unsigned open, Cost weight, Cost multiplicity) {
    const auto n = static_cast<std::size_t>(p.vertex_count);
    std::vector<std::vector<Cost>> d(n, std::vector<Cost>(n, kNever));
    for (std::size_t v = 0; v < n; ++v)
        d[v][v] = 0;
    for (std::size_t e = 0; e < p.edges.size(); ++e) {
        if ((open >> e & 1U) == 0) continue;
        const SharedCostEdge& edge = p.edges[e];
        const Cost cost = weight * edge.length + multiplicity * edge.passage;
        d[edge.tail][edge.head] = std::min(d[edge.tail][edge.head], cost);
        d[edge.head][edge.tail] = std::min(d[edge.head][edge.tail], cost);
    }
    for (std::size_t k = 0; k < n; ++k) {
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = 0; j < n; ++j)
                d[i][j] = std::min(d[i][j], d[i][k] + d[k][j]);
        }
    }
    return d;
}

/// Costs of every choice when exactly these edges are open.
struct Priced {
    std::vector<std::vector<Cost>> service;  ///< By demand, by site; the source last.
    std::vector<std::vector<Cost>> feeder;   ///< By site, by size.

    Priced(const TwoLevelProblem& p, unsigned open) {
        for (const TwoLevelDemand& demand : p.demands) {
            const auto d = distances(p, open, demand.weight, demand.multiplicity);
            auto& row = service.emplace_back();
            for (const Site& site : p.sites)
                row.push_back(d[site.at][demand.at]);
            if (demand.direct) {
                const auto by = distances(p, open, demand.direct->weight, demand.direct->multiplicity);
                row.push_back(by[p.source][demand.at] + demand.direct->fixed);
            } else {
                row.push_back(kNever);
            }
        }
        feeder.resize(p.sites.size());
        for (std::size_t k = 0; k < p.sizes.size(); ++k) {
            const FeederSize& size = p.sizes[k];
            const auto d = distances(p, open, size.weight, size.multiplicity);
            for (std::size_t s = 0; s < p.sites.size(); ++s) {
                const Cost extra = p.sites[s].feeder_extra.empty() ? 0 : p.sites[s].feeder_extra[k];
                feeder[s].push_back(d[p.source][p.sites[s].at] + size.fixed + extra);
            }
        }
    }
};

Cost cheapest_assignment(const TwoLevelProblem& p, const Priced& priced, unsigned sites) {
    const std::size_t choices = p.sites.size() + 1;
    std::vector<std::size_t> by(p.demands.size(), 0);
    Cost best = kNever;
    while (true) {
        Cost total = 0;
        std::vector<std::int64_t> units(p.sites.size(), 0);
        for (std::size_t d = 0; d < by.size(); ++d) {
            const bool closed = by[d] < p.sites.size() && (sites >> by[d] & 1U) == 0;
            total += closed ? kNever : priced.service[d][by[d]];
            total = std::min(total, kNever);
            if (by[d] < p.sites.size()) units[by[d]] += p.demands[d].units;
        }
        for (std::size_t s = 0; s < p.sites.size() && total < kNever; ++s) {
            if ((sites >> s & 1U) == 0) continue;
            const auto needed = static_cast<Cost>(units[s]) + p.spare_units +
                                static_cast<Cost>(std::ceil(p.spare_share * static_cast<double>(units[s])));
            Cost feeder = kNever;
            for (std::size_t k = 0; k < p.sizes.size(); ++k) {
                if (p.sizes[k].units >= needed) feeder = std::min(feeder, priced.feeder[s][k]);
            }
            total = std::min(kNever, total + p.sites[s].cost + feeder);
        }
        best = std::min(best, total);
        std::size_t d = 0;
        while (d < by.size() && ++by[d] == choices)
            by[d++] = 0;
        if (d == by.size()) return best;
    }
}

Cost exhaustive_optimum(const TwoLevelProblem& p) {
    Cost best = kNever;
    for (unsigned open = 0; open < 1U << p.edges.size(); ++open) {
        Cost opening = 0;
        for (std::size_t e = 0; e < p.edges.size(); ++e)
            opening += (open >> e & 1U) ? p.edges[e].opening : 0;
        const Priced priced(p, open);
        for (unsigned sites = 0; sites < 1U << p.sites.size(); ++sites) {
            const int count = __builtin_popcount(sites);
            if (count < p.fewest_sites || count > p.most_sites) continue;
            best = std::min(best, opening + cheapest_assignment(p, priced, sites));
        }
    }
    return best >= kNever / 2 ? kNever : best;
}

SolveLimits ample() {
    SolveLimits limits;
    limits.seconds = 60;
    return limits;
}

void check_family(const Family& family, int rounds, double least_share_found) {
    const int runs = effort(rounds);
    std::mt19937 random(20260101);
    int planned = 0;
    int found = 0;
    int proved = 0;
    for (int run = 0; run < runs; ++run) {
        const TwoLevelProblem p = random_problem(random, family);
        CAPTURE(run);
        const Cost optimum = exhaustive_optimum(p);
        const TwoLevelSolution s = solve(p, ample());
        REQUIRE(s.plan.has_value() == (optimum < kNever));
        if (!s.plan) continue;
        ++planned;
        REQUIRE(s.bound <= optimum);
        REQUIRE(s.plan->value >= optimum);
        REQUIRE(cost_of(p, *s.plan) == s.plan->value);
        found += s.plan->value == optimum ? 1 : 0;
        proved += s.bound == optimum ? 1 : 0;
    }
    MESSAGE("optimum found in " << found << " and proved in " << proved << " of " << planned);
    CHECK(planned > runs / 3);
    CHECK(found >= least_share_found * planned);
}

TwoLevelProblem small_example() {
    TwoLevelProblem p;
    p.vertex_count = 4;  // 0 -- 1 -- 2, 1 -- 3
    p.edges = {{0, 1, 100, 10, 0}, {1, 2, 20, 3, 0}, {1, 3, 30, 4, 0}};
    p.demands = {{2, 2, 1, 2, std::nullopt}, {3, 2, 1, 2, std::nullopt}};
    p.sites = {{1, 7}, {2, 1}};
    p.sizes = {{4, 1, 1, 5}, {8, 3, 1, 6}};
    return p;
}

}  // namespace

TEST_CASE("a two-level plan on a star is priced by hand") {
    TwoLevelProblem p = small_example();
    const TwoLevelSolution s = solve(p, ample());
    REQUIRE(s.plan);
    // Openings 150. Site at 1: 7 + feeder 1*10+5 + services 2*3+2*4 = 36. Site at 2: 1 + 1*13+5 + 2*7 = 33.
    CHECK(s.plan->value == 183);
    CHECK(s.bound <= 183);
    REQUIRE(s.best_by_count.size() == 2);
    CHECK_FALSE(s.best_by_count[0]);
    REQUIRE(s.best_by_count[1]);
    CHECK(s.best_by_count[1]->value == 183);
}

TEST_CASE("spare units and shares call for the larger size") {
    TwoLevelProblem p = small_example();
    CHECK(units_needed(p, 4) == 4);
    p.spare_share = 0.25;
    CHECK(units_needed(p, 4) == 5);
    CHECK(units_needed(p, 5) == 7);
    p.spare_units = 2;
    CHECK(units_needed(p, 0) == 2);
    const TwoLevelSolution s = solve(p, ample());
    REQUIRE(s.plan);
    CHECK(s.plan->open.front().size ==
          1);  // Weight 3: site at 1 pays 7 + 36 + 14 = 57, site at 2 pays 1 + 45 + 14 = 60.
    CHECK(s.plan->value == 207);
}

TEST_CASE("a share that is whole in decimals is not rounded up by its binary form") {
    TwoLevelProblem p = small_example();
    p.spare_share = 0.07;
    CHECK(units_needed(p, 100) == 107);
    p.spare_share = 0.1;
    CHECK(units_needed(p, 30) == 33);
}

TEST_CASE("two-level plans and bounds bracket the exhaustive optimum") {
    SUBCASE("without direct service") {
        check_family({.direct = false}, 150, 0.9);
    }
    SUBCASE("with direct service") {
        check_family({}, 150, 0.9);
    }
    SUBCASE("with one charge for all demands") {
        check_family({.uneven_weights = false}, 100, 0.9);
    }
    SUBCASE("with passages that rank paths otherwise than lengths") {
        check_family({.passages = true}, 150, 0.85);
    }
    SUBCASE("with cheap trenches, where cycles may pay") {
        check_family({.largest_opening = 4}, 150, 0.8);
    }
    SUBCASE("with one site at most, where the bound is the single-root solver's") {
        check_family({.direct = false, .most_sites = 1}, 150, 0.95);
    }
    SUBCASE("with free trenches") {
        check_family({.largest_opening = 0}, 60, 0.7);
    }
}

TEST_CASE("a two-level bound from any prices at all stays below the exhaustive optimum") {
    std::mt19937 random(20260103);
    int even = 0;
    int above_nothing = 0;
    for (int run = 0; run < effort(120); ++run) {
        CAPTURE(run);
        const Family family{.direct = run % 3 == 0,
                            .passages = run % 4 == 1,
                            .uneven_weights = run % 2 == 0,
                            .largest_opening = run % 5 == 0 ? 4 : 40};
        const TwoLevelProblem p = random_problem(random, family);
        const Cost optimum = exhaustive_optimum(p);
        if (optimum == kNever) continue;
        const pair_routes::Network network(p.vertex_count, p.edges);
        WorkerTeam team(1);
        const two_level::Relaxation plain = two_level::relaxed(p, network, {{5, 7, 3}});
        const auto shares = two_level::even_shares(p);
        const two_level::Relaxation other = shares ? two_level::made_even(plain, *shares) : plain;
        even += shares ? 1 : 0;
        const double scale = static_cast<double>(plain.parts) * static_cast<double>(1 + random() % 60);
        two_level::PriceTable prices(p.demands.size(),
                                     std::vector<float>(2 * p.edges.size() + plain.sites.size(), 0.0F));
        for (auto& row : prices) {
            for (float& price : row) {
                price = static_cast<float>(scale * static_cast<double>(random() % 1000) / 1000.0 - scale / 3.0);
            }
        }
        for (const Cost toll : {Cost{0}, Cost{9} * plain.parts}) {
            const Cost bound = two_level::bound_from_prices(plain, network, prices, toll, team);
            REQUIRE(bound <= optimum);
            REQUIRE(two_level::bound_from_prices(other, network, prices, toll, team) <= optimum);
            above_nothing += bound > 0 ? 1 : 0;
        }
    }
    CHECK(even > effort(20));
    CHECK(above_nothing > effort(20));
}

TEST_CASE("a two-level problem that cannot be planned has no plan") {
    TwoLevelProblem p = small_example();
    SUBCASE("no site and no direct service") {
        p.sites.clear();
    }
    SUBCASE("more sites asked for than there are") {
        p.fewest_sites = p.most_sites = 3;
    }
    SUBCASE("fewest above most") {
        p.fewest_sites = 2;
    }
    SUBCASE("no site allowed") {
        p.most_sites = 0;
    }
    SUBCASE("a demand is cut off") {
        p.vertex_count = 5;
        p.demands.push_back({4, 1, 1, 1, DirectService{1, 1, 0}});
    }
    SUBCASE("all sites are cut off") {
        p.vertex_count = 5;
        p.sites = {{4, 1}};
    }
    SUBCASE("more units than the largest size holds") {
        p.demands[0].units = 9;
    }
    SUBCASE("more spare units than the largest size holds") {
        p.spare_units = 9;
    }
    SUBCASE("no sizes") {
        p.sizes.clear();
    }
    SUBCASE("an unknown vertex") {
        p.edges[0].head = 17;
    }
    SUBCASE("a negative figure") {
        p.edges[0].opening = -1;
    }
    SUBCASE("sizes that do not ascend") {
        p.sizes[1].units = 3;
    }
    SUBCASE("figures too large to add up") {
        p.edges[0].opening = std::numeric_limits<Cost>::max();
    }
    SUBCASE("a share that is not a number") {
        p.spare_share = std::numeric_limits<double>::quiet_NaN();
    }
    CHECK_FALSE(solve(p, ample()).plan);
}

TEST_CASE("units that no one feeder carries are split between sites") {
    TwoLevelProblem p = small_example();
    p.demands[0].units = 8;
    p.demands[1].units = 8;
    p.most_sites = 2;
    const TwoLevelSolution s = solve(p, ample());
    REQUIRE(s.plan);
    CHECK(s.plan->open.size() == 2);
    CHECK_FALSE(s.best_by_count[1]);
}

TEST_CASE("a two-level problem without demands costs its cheapest sites") {
    TwoLevelProblem p = small_example();
    p.demands.clear();
    SUBCASE("none needed") {
        const auto s = solve(p, ample());
        REQUIRE(s.plan);
        CHECK(s.plan->value == 0);
        CHECK(s.bound <= 0);
    }
    SUBCASE("one needed") {
        p.fewest_sites = 1;
        const auto s = solve(p, ample());
        REQUIRE(s.plan);
        CHECK(s.plan->value == 100 + 7 + 15);
        CHECK(s.bound <= 122);
    }
}

TEST_CASE("zero costs everywhere give a plan of zero") {
    TwoLevelProblem p = small_example();
    for (auto& e : p.edges)
        e = {e.tail, e.head, 0, 0, 0};
    for (auto& s : p.sites)
        s.cost = 0;
    for (auto& s : p.sizes)
        s = {s.units, 0, 0, 0};
    const auto s = solve(p, ample());
    REQUIRE(s.plan);
    CHECK(s.plan->value == 0);
    CHECK(s.bound == 0);
}

TEST_CASE("the pricing of a two-level plan refuses what is not one") {
    const TwoLevelProblem p = small_example();
    TwoLevelPlan plan = *solve(p, ample()).plan;
    REQUIRE(cost_of(p, plan));
    SUBCASE("a path broken off") {
        plan.paths[1].pop_back();
    }
    SUBCASE("a feeder broken off") {
        plan.open[0].feeder.pop_back();
    }
    SUBCASE("a path there and back") {
        plan.paths[0].insert(plan.paths[0].end(), {1, 1});
    }
    SUBCASE("an unknown edge") {
        plan.paths[0] = {9};
    }
    SUBCASE("an unknown size") {
        plan.open[0].size = 2;
    }
    SUBCASE("an unknown site") {
        plan.open[0].site = 2;
    }
    SUBCASE("served by a site that is not open") {
        plan.served_by[0] = 1;
    }
    SUBCASE("served directly where that is not allowed") {
        plan.served_by[0] = -1;
    }
    SUBCASE("a demand left out") {
        plan.paths.pop_back();
        plan.served_by.pop_back();
    }
    SUBCASE("the same site twice") {
        plan.open.push_back(plan.open[0]);
    }
    SUBCASE("more sites than allowed") {
        plan.open.push_back({1, 0, {0, 1}});
    }
    CHECK_FALSE(cost_of(p, plan));
}

TEST_CASE("the best two-level plan for each number of sites has that many and prices right") {
    std::mt19937 random(7);
    for (int run = 0; run < 40; ++run) {
        TwoLevelProblem p = random_problem(random, {.sites = 4});
        p.fewest_sites = 0;
        p.most_sites = 3;
        const auto s = solve(p, ample());
        std::optional<Cost> best;
        for (std::size_t count = 0; count < s.best_by_count.size(); ++count) {
            const auto& plan = s.best_by_count[count];
            if (!plan) continue;
            CHECK(plan->open.size() == count);
            CHECK(cost_of(p, *plan) == plan->value);
            best = best ? std::min(*best, plan->value) : plan->value;
        }
        REQUIRE(s.plan.has_value() == best.has_value());
        if (best) {
            CHECK(s.plan->value == *best);
        }
    }
}

TEST_CASE("a two-level answer does not depend on the number of threads") {
    std::mt19937 random(11);
    for (int run = 0; run < 15; ++run) {
        const TwoLevelProblem p =
            random_problem(random, {.vertices = 30, .edges = 50, .demands = 8, .sites = 10, .largest_opening = 90});
        SolveLimits one = ample();
        SolveLimits three = ample();
        three.threads = 3;
        const auto a = solve(p, one);
        const auto b = solve(p, three);
        REQUIRE(a.plan.has_value() == b.plan.has_value());
        CHECK(a.bound == b.bound);
        if (!a.plan) continue;
        CHECK(a.plan->value == b.plan->value);
        CHECK(a.plan->paths == b.plan->paths);
        CHECK(a.plan->served_by == b.plan->served_by);
    }
}

TEST_CASE("other names for the vertices leave the exhaustive bracket of a two-level problem in place") {
    std::mt19937 random(13);
    for (int run = 0; run < 30; ++run) {
        const TwoLevelProblem p = random_problem(random, {});
        TwoLevelProblem q = p;
        std::vector<VertexId> name(static_cast<std::size_t>(p.vertex_count));
        for (VertexId v = 0; v < p.vertex_count; ++v)
            name[v] = v;
        std::shuffle(name.begin(), name.end(), random);
        for (auto& e : q.edges)
            e = {name[e.head], name[e.tail], e.opening, e.length, e.passage};
        for (auto& d : q.demands)
            d.at = name[d.at];
        for (auto& s : q.sites)
            s.at = name[s.at];
        q.source = name[q.source];
        const auto a = solve(p, ample());
        const auto b = solve(q, ample());
        REQUIRE(a.plan.has_value() == b.plan.has_value());
        if (!a.plan) continue;
        CHECK(a.bound <= b.plan->value);
        CHECK(b.bound <= a.plan->value);
    }
}
