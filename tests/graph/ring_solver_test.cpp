// Checked against an exhaustive solver of separate simple code: every order of the stops, every way to cut it into
// rings, every simple path for every hop. No published instances exist for this problem.

#include "graph/ring_solver.hpp"

#include <algorithm>
#include <functional>
#include <limits>
#include <map>
#include <random>
#include <set>

#include <doctest/doctest.h>

namespace {

using namespace spadework::graph;

constexpr Cost kNever = std::numeric_limits<Cost>::max() / 4;

struct Family {
    VertexId vertices = 6;
    std::int32_t cuts = 9;
    std::int32_t stops = 3;
    bool passages = false;
    bool second_ways = false;  ///< Some cuts with two edges.
    Cost largest_opening = 40;
};

RingProblem random_problem(std::mt19937& random, const Family& family) {
    const auto below = [&](Cost n) { return static_cast<Cost>(random() % static_cast<std::uint32_t>(n)); };
    RingProblem p;
    p.vertex_count = family.vertices;
    for (std::int32_t cut = 0; cut < family.cuts; ++cut) {
        SharedCostEdge edge;
        edge.tail = cut + 1 < family.vertices ? cut + 1 : static_cast<VertexId>(below(family.vertices));
        edge.head = static_cast<VertexId>(cut + 1 < family.vertices ? below(cut + 1) : below(family.vertices));
        for (int way = 0; way < (family.second_ways && below(3) == 0 ? 2 : 1); ++way) {
            edge.opening = below(family.largest_opening + 1);
            edge.length = below(10);
            edge.passage = family.passages ? below(8) : 0;
            p.edges.push_back(edge);
            p.cut_of.push_back(cut);
            std::swap(edge.tail, edge.head);
        }
    }
    p.source = static_cast<VertexId>(below(family.vertices));
    for (std::int32_t s = 0; s < family.stops; ++s)
        p.stops.push_back(static_cast<VertexId>(below(family.vertices)));
    p.weight = below(4);
    p.multiplicity = below(3);
    p.ring_cost = below(30);
    p.longest_ring = 1 + static_cast<std::int32_t>(below(family.stops));
    return p;
}

/// Vertices with a way to the source without one cut (-1: with all).
std::set<VertexId> joined_without(const RingProblem& p, std::int32_t cut) {
    std::set<VertexId> joined{p.source};
    for (bool again = true; again;) {
        again = false;
        for (std::size_t e = 0; e < p.edges.size(); ++e) {
            if (p.cut_of[e] == cut || joined.contains(p.edges[e].tail) == joined.contains(p.edges[e].head)) continue;
            joined.insert({p.edges[e].tail, p.edges[e].head});
            again = true;
        }
    }
    return joined;
}

using Paths = std::vector<std::vector<EdgeId>>;

/// Every simple path between two vertices.
Paths all_paths(const RingProblem& p, VertexId from, VertexId to) {
    Paths found;
    std::vector<EdgeId> path;
    std::set<VertexId> passed{from};
    const std::function<void(VertexId)> walk = [&](VertexId at) {
        if (at == to) {
            found.push_back(path);
            return;
        }
        for (std::size_t e = 0; e < p.edges.size(); ++e) {
            if (p.edges[e].tail != at && p.edges[e].head != at) continue;
            const VertexId next = p.edges[e].tail == at ? p.edges[e].head : p.edges[e].tail;
            if (!passed.insert(next).second) continue;
            path.push_back(static_cast<EdgeId>(e));
            walk(next);
            path.pop_back();
            passed.erase(next);
        }
    };
    walk(from);
    return found;
}

class Exhaustive {
public:
    explicit Exhaustive(const RingProblem& p) : p_(p) {
        for (std::int32_t cut = -1; cut <= *std::max_element(p.cut_of.begin(), p.cut_of.end()); ++cut)
            joined_[cut] = joined_without(p, cut);
        uses_.assign(p.edges.size(), 0);
    }

    Cost run() {
        std::vector<char> seen(p_.stops.size(), 0);
        go_on(seen, p_.source, 0);
        return best_;
    }

private:
    const Paths& paths(VertexId from, VertexId to) {
        const auto [entry, fresh] = paths_.try_emplace({from, to});
        if (fresh) entry->second = all_paths(p_, from, to);
        return entry->second;
    }

    /// Lays a hop when the ring may pass its cuts, goes on, and takes it up again.
    void lay(VertexId from, VertexId to, const std::function<void()>& then) {
        for (const auto& path : paths(from, to)) {
            const Cost before = cost_;
            ring_.push_back(path);
            bool allowed = true;
            for (const EdgeId e : path) {
                cost_ += p_.weight * p_.edges[e].length + p_.multiplicity * p_.edges[e].passage;
                if (uses_[e]++ == 0) cost_ += p_.edges[e].opening;
                allowed = allowed && may_pass(p_.cut_of[e]);
            }
            if (allowed && cost_ < best_) then();
            for (const EdgeId e : path)
                --uses_[e];
            ring_.pop_back();
            cost_ = before;
        }
    }

    /// Where the ring has passed the cut before, the stops visited since must be lost on the map as well. (Those of
    /// the hops so far: the stops in between.)
    bool may_pass(std::int32_t cut) const {
        for (std::size_t hop = 0; hop + 1 < ring_.size(); ++hop) {
            const bool passes =
                std::any_of(ring_[hop].begin(), ring_[hop].end(), [&](EdgeId e) { return p_.cut_of[e] == cut; });
            if (!passes) continue;
            for (std::size_t i = hop; i + 1 < ring_.size(); ++i) {
                if (joined_.at(cut).contains(p_.stops[visited_[i]])) return false;
            }
        }
        return true;
    }

    void go_on(std::vector<char>& seen, VertexId at, std::int32_t in_ring) {
        if (in_ring > 0) {
            lay(at, p_.source, [&] {
                const auto ring = std::move(ring_);
                const auto visited = std::move(visited_);
                ring_.clear();
                visited_.clear();
                if (std::find(seen.begin(), seen.end(), 0) == seen.end()) {
                    best_ = std::min(best_, cost_);
                } else {
                    go_on(seen, p_.source, 0);
                }
                ring_ = ring;
                visited_ = visited;
            });
        }
        if (in_ring == p_.longest_ring) return;
        if (in_ring == 0) cost_ += p_.ring_cost;
        for (std::size_t s = 0; s < seen.size(); ++s) {
            if (seen[s]) continue;
            seen[s] = 1;
            lay(at, p_.stops[s], [&] {
                visited_.push_back(s);
                go_on(seen, p_.stops[s], in_ring + 1);
                visited_.pop_back();
            });
            seen[s] = 0;
        }
        if (in_ring == 0) cost_ -= p_.ring_cost;
    }

    const RingProblem& p_;
    std::map<std::int32_t, std::set<VertexId>> joined_;
    std::map<std::pair<VertexId, VertexId>, Paths> paths_;
    std::vector<int> uses_;
    std::vector<std::vector<EdgeId>> ring_;
    std::vector<std::size_t> visited_;
    Cost cost_ = 0;
    Cost best_ = kNever;
};

SolveLimits ample() {
    SolveLimits limits;
    limits.seconds = 60;
    return limits;
}

void check_family(const Family& family, int runs, double least_share_found) {
    std::mt19937 random(20260103);
    int found = 0;
    int proved = 0;
    for (int run = 0; run < runs; ++run) {
        const RingProblem p = random_problem(random, family);
        CAPTURE(run);
        const Cost optimum = Exhaustive(p).run();
        const RingSolution s = solve(p, ample());
        REQUIRE(s.plan);
        REQUIRE(s.bound <= optimum);
        REQUIRE(s.plan->value >= optimum);
        REQUIRE(cost_of(p, *s.plan) == s.plan->value);
        found += s.plan->value == optimum ? 1 : 0;
        proved += s.bound == optimum ? 1 : 0;
    }
    MESSAGE("optimum found in " << found << " and proved in " << proved << " of " << runs);
    CHECK(found >= least_share_found * runs);
}

/// A square 0-1-2-3 with the source at 0 and a spur from 2 to 4.
RingProblem square_with_spur() {
    RingProblem p;
    p.vertex_count = 5;
    p.edges = {{0, 1, 100, 10, 0}, {1, 2, 100, 10, 0}, {2, 3, 100, 10, 0}, {3, 0, 100, 10, 0}, {2, 4, 50, 5, 0}};
    p.cut_of = {0, 1, 2, 3, 4};
    p.stops = {1, 4};
    p.weight = 1;
    p.ring_cost = 7;
    p.longest_ring = 2;
    return p;
}

RingPlan round_the_square() {
    RingPlan plan;
    plan.rings = {{{{0, {0}}, {1, {1, 4}}}, {3, 2, 4}}};
    return plan;
}

}  // namespace

TEST_CASE("a ring round a square with a spur is priced by hand, and the bound meets it") {
    const RingProblem p = square_with_spur();
    const RingSolution s = solve(p, ample());
    REQUIRE(s.plan);
    // Openings 450; four sides of 10 once, the spur of 5 twice; one ring.
    CHECK(s.plan->value == 507);
    CHECK(s.bound == 507);
    REQUIRE(s.plan->rings.size() == 1);
    CHECK(s.plan->rings[0].hops.size() == 2);
    CHECK(cost_of(p, round_the_square()) == 507);
}

TEST_CASE("rings that hold one stop go two ways round") {
    RingProblem p = square_with_spur();
    p.longest_ring = 1;
    const RingSolution s = solve(p, ample());
    REQUIRE(s.plan);
    CHECK(s.plan->rings.size() == 2);
    CHECK(s.plan->value == 450 + 2 * 40 + 10 + 14);
    CHECK(s.bound <= s.plan->value);
}

TEST_CASE("a ring passes a stretch twice only where the map has no second way") {
    const RingProblem p = square_with_spur();
    RingPlan there_and_back = round_the_square();
    there_and_back.rings[0].back = {0, 1, 4};  // Cheaper, and a cut of either side takes the stop at 4 down.
    CHECK(!cost_of(p, there_and_back));
    RingProblem without_last_side = p;
    without_last_side.edges.erase(without_last_side.edges.begin() + 3);
    without_last_side.cut_of.erase(without_last_side.cut_of.begin() + 3);
    there_and_back.rings[0].hops[1].path = {1, 3};
    there_and_back.rings[0].back = {0, 1, 3};
    CHECK(cost_of(without_last_side, there_and_back) == 100 + 100 + 50 + 10 * 4 + 5 * 2 + 7);
}

TEST_CASE("two ways of one stretch are no second way") {
    RingProblem p;
    p.vertex_count = 2;
    p.edges = {{0, 1, 100, 10, 0}, {1, 0, 20, 30, 0}};
    p.cut_of = {0, 0};
    p.stops = {1};
    p.weight = 1;
    const RingSolution one_stretch = solve(p, ample());
    REQUIRE(one_stretch.plan);
    CHECK(one_stretch.plan->value == 20 + 2 * 30);  // A bridge: both ways by the cheaper.
    CHECK(one_stretch.bound == 80);
    p.cut_of = {0, 1};
    const RingSolution two_stretches = solve(p, ample());
    REQUIRE(two_stretches.plan);
    CHECK(two_stretches.plan->value == 100 + 10 + 20 + 30);
    CHECK(two_stretches.bound == 160);
}

TEST_CASE("stops where the source is cost a ring and nothing else") {
    RingProblem p = square_with_spur();
    p.stops = {0, 0, 0};
    const RingSolution s = solve(p, ample());
    REQUIRE(s.plan);
    CHECK(s.plan->value == 14);
    CHECK(s.bound == 14);
}

TEST_CASE("a plan that is none of the problem has no cost") {
    const RingProblem p = square_with_spur();
    RingPlan plan = round_the_square();
    SUBCASE("a stop left out") {
        plan.rings[0].hops.pop_back();
        plan.rings[0].back = {3, 2, 1};
    }
    SUBCASE("a stop twice") {
        plan.rings.push_back(plan.rings[0]);
    }
    SUBCASE("a ring not closed") {
        plan.rings[0].back.pop_back();
    }
    SUBCASE("a hop that leads elsewhere") {
        plan.rings[0].hops[1].path = {1};
    }
    SUBCASE("an unknown edge") {
        plan.rings[0].hops[0].path = {9};
    }
    SUBCASE("a ring without stops") {
        plan.rings.emplace_back();
    }
    CHECK(!cost_of(p, plan));
}

TEST_CASE("too long a ring has no cost") {
    RingProblem p = square_with_spur();
    p.longest_ring = 1;
    CHECK(!cost_of(p, round_the_square()));
}

TEST_CASE("a ring problem that cannot be planned has no plan") {
    RingProblem p = square_with_spur();
    SUBCASE("a stop is cut off") {
        p.vertex_count = 6;
        p.stops.push_back(5);
    }
    SUBCASE("rings may hold no stop") {
        p.longest_ring = 0;
    }
    SUBCASE("an unknown stop") {
        p.stops.push_back(99);
    }
    SUBCASE("a negative figure") {
        p.weight = -1;
    }
    SUBCASE("an edge without a cut") {
        p.cut_of.pop_back();
    }
    SUBCASE("a cut in two places") {
        p.cut_of[1] = 0;
    }
    SUBCASE("figures too large to add up") {
        p.edges[0].length = std::numeric_limits<Length>::max();
    }
    const RingSolution s = solve(p, ample());
    CHECK(!s.plan);
    CHECK(s.bound == 0);
}

TEST_CASE("no stops need no ring") {
    RingProblem p = square_with_spur();
    p.stops.clear();
    const RingSolution s = solve(p, ample());
    REQUIRE(s.plan);
    CHECK(s.plan->rings.empty());
    CHECK(s.plan->value == 0);
    CHECK(s.bound == 0);
}

TEST_CASE("ring plans and bounds bracket the exhaustive optimum") {
    SUBCASE("usual openings") {
        check_family({}, 150, 0.85);
    }
    SUBCASE("with passages and second ways of a stretch") {
        check_family({.passages = true, .second_ways = true}, 100, 0.8);
    }
    SUBCASE("with free trenches") {
        check_family({.largest_opening = 0}, 60, 0.7);
    }
    SUBCASE("with dear trenches") {
        check_family({.largest_opening = 400}, 100, 0.85);
    }
    SUBCASE("with few second ways") {
        check_family({.vertices = 8, .cuts = 9, .stops = 4}, 100, 0.85);
    }
}

TEST_CASE("the same ring problem gives the same plan, and a stopped search keeps its promises") {
    std::mt19937 random(7);
    const RingProblem p = random_problem(random, {.vertices = 40, .cuts = 70, .stops = 15});
    const RingSolution one = solve(p, ample());
    const RingSolution two = solve(p, ample());
    REQUIRE(one.plan);
    REQUIRE(two.plan);
    CHECK(one.plan->value == two.plan->value);
    CHECK(one.bound == two.bound);
    CHECK(one.bound <= one.plan->value);
    SolveLimits none;
    none.seconds = 0;
    const RingSolution stopped = solve(p, none);
    REQUIRE(stopped.plan);
    CHECK(stopped.bound <= one.plan->value);
    CHECK(stopped.plan->value >= one.bound);
    CHECK(stopped.interrupted);
}
