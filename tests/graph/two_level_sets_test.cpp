// Certificates of bounds proved set by set, checked again by the plainest code: distances by Floyd and Warshall, every
// way of sharing out the units tried. No published instances exist for this problem.

#include <algorithm>
#include <functional>
#include <limits>
#include <map>
#include <numeric>
#include <random>

#include <doctest/doctest.h>

#include "graph/two_level_solver.hpp"
#include "support/effort.hpp"

namespace {

using namespace spadework::graph;
using spadework::effort;

constexpr Cost kNever = std::numeric_limits<Cost>::max() / 8;

/// A problem in which all demands are alike but for how many of each kind there are.
TwoLevelProblem even_problem(std::mt19937& random, bool direct) {
    const auto below = [&](Cost n) { return static_cast<Cost>(random() % static_cast<std::uint32_t>(n)); };
    TwoLevelProblem p;
    p.vertex_count = 9;
    for (VertexId e = 0; e < 15; ++e) {
        const VertexId tail = e + 1 < 9 ? e + 1 : static_cast<VertexId>(below(9));
        p.edges.push_back({tail, static_cast<VertexId>(below(e + 1 < 9 ? e + 1 : 9)), below(300), below(30), 0});
    }
    for (int d = 0; d < 6; ++d) {
        const Cost size = 1 + below(2);
        TwoLevelDemand demand{static_cast<VertexId>(below(9)), 3 * size, 1, 2 * size, std::nullopt};
        if (direct) demand.direct = DirectService{3 * size, 1, -2 * size};
        p.demands.push_back(demand);
    }
    for (int s = 0; s < 4; ++s)
        p.sites.push_back({static_cast<VertexId>(below(9)), below(40)});
    p.sizes = {{6, 4, 1, 10}, {14, 7, 1, 25}, {40, 9, 1, 60}};
    p.fewest_sites = direct ? 0 : 1;
    p.most_sites = 2;
    return p;
}

using Table = std::vector<std::vector<Cost>>;

/// Distances between all vertices where a step along an arc costs `step(arc)`.
Table distances(const TwoLevelProblem& p, const std::function<Cost(std::size_t, bool)>& step) {
    const auto n = static_cast<std::size_t>(p.vertex_count);
    Table d(n, std::vector<Cost>(n, kNever));
    for (std::size_t v = 0; v < n; ++v)
        d[v][v] = 0;
    for (std::size_t e = 0; e < p.edges.size(); ++e) {
        const auto& edge = p.edges[e];
        d[edge.tail][edge.head] = std::min(d[edge.tail][edge.head], step(e, false));
        d[edge.head][edge.tail] = std::min(d[edge.head][edge.tail], step(e, true));
    }
    for (std::size_t k = 0; k < n; ++k) {
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = 0; j < n; ++j)
                d[i][j] = std::min(d[i][j], d[i][k] + d[k][j]);
        }
    }
    return d;
}

/// For each demand its cheapest priced way to each vertex where a site may stand, and to the source.
Table priced_service(const TwoLevelProblem& p, const EdgePriceSet& prices, Cost parts) {
    Table service;
    for (std::size_t d = 0; d < p.demands.size(); ++d) {
        std::map<std::pair<std::size_t, bool>, Cost> price;
        for (const EdgePrice& e : prices[d])
            price[{static_cast<std::size_t>(e.edge), e.backwards}] += e.price;
        const auto priced = [&](std::size_t e, bool backwards) {
            const auto found = price.find({e, backwards});
            return found == price.end() ? 0 : found->second;
        };
        const Cost weight = p.demands[d].weight;
        const Table trench = distances(p, priced);
        const Table cable = distances(
            p, [&](std::size_t e, bool back) { return priced(e, back) + weight * p.edges[e].length * parts; });
        auto& row = service.emplace_back();
        for (VertexId v = 0; v < p.vertex_count; ++v) {
            Cost least = kNever;
            for (VertexId fork = 0; fork < p.vertex_count; ++fork)
                least = std::min(least, trench[p.source][fork] + cable[fork][v] + cable[fork][p.demands[d].at]);
            row.push_back(least);
        }
        row.push_back(cable[p.source][p.demands[d].at]);
    }
    return service;
}

/// By size, distances of its feeders, times the number of sites, where each of them pays an equal part of what demands
/// leave of an edge's opening cost when they pay for the dearer direction.
std::vector<Table> feeder_ways(const TwoLevelProblem& p, const EdgePriceSet& prices, Cost parts, std::size_t sites) {
    std::map<std::pair<std::size_t, bool>, Cost> spent;
    for (const auto& list : prices) {
        for (const EdgePrice& e : list)
            spent[{static_cast<std::size_t>(e.edge), e.backwards}] += e.price;
    }
    std::vector<Table> ways;
    for (const FeederSize& size : p.sizes) {
        ways.push_back(distances(p, [&](std::size_t e, bool) {
            const Cost left = p.edges[e].opening * parts - std::max(spent[{e, false}], spent[{e, true}]);
            return left + static_cast<Cost>(sites) * size.weight * p.edges[e].length * parts;
        }));
    }
    return ways;
}

/// What one of so many sites costs at least when it serves so many units, in parts.
Cost site_cost(const TwoLevelProblem& p, const std::vector<Table>& ways, std::size_t sites, std::int32_t site,
               std::int64_t units, Cost parts) {
    Cost least = kNever;
    for (std::size_t s = 0; s < p.sizes.size(); ++s) {
        if (p.sizes[s].units < units) continue;
        const Cost way = ways[s][p.source][p.sites[site].at] / static_cast<Cost>(sites);
        least = std::min(least, (p.sites[site].cost + p.sizes[s].fixed) * parts + way);
    }
    return least;
}

/// Whatever a site serves is a multiple of this.
std::int64_t units_in_common(const TwoLevelProblem& p) {
    std::int64_t common = 0;
    for (const auto& d : p.demands)
        common = std::gcd(common, d.units);
    return common;
}

/// What the prices and asks prove of plans with these sites in which each serves units within its range.
Cost proved_of(const TwoLevelProblem& p, const TwoLevelCertificate& c, const TwoLevelCertificate::SitesProof& proof) {
    const Table service = priced_service(p, c.prices[proof.prices], c.parts);
    const std::vector<Table> ways = feeder_ways(p, c.prices[proof.prices], c.parts, proof.sites.size());
    Cost sum = 0;
    std::int64_t all = 0;
    for (std::size_t d = 0; d < p.demands.size(); ++d) {
        const TwoLevelDemand& demand = p.demands[d];
        all += demand.units;
        Cost least = demand.direct ? service[d].back() + demand.direct->fixed * c.parts : kNever;
        for (std::size_t k = 0; k < proof.sites.size(); ++k) {
            least = std::min(least, service[d][p.sites[proof.sites[k]].at] + proof.asks[k] * demand.units);
        }
        sum += least;
    }
    Cost cheapest = kNever;
    const std::int64_t common = units_in_common(p);
    const std::function<void(std::size_t, std::int64_t, Cost)> share_out = [&](std::size_t k, std::int64_t left,
                                                                               Cost so) {
        if (k == proof.sites.size()) {
            if (left == 0 || p.demands[0].direct) cheapest = std::min(cheapest, so);
            return;
        }
        for (std::int64_t u = proof.units[k].least; u <= std::min(left, proof.units[k].most); u += common) {
            const Cost here = site_cost(p, ways, proof.sites.size(), proof.sites[k], u, c.parts);
            if (here < kNever) share_out(k + 1, left - u, so + here - proof.asks[k] * u);
        }
    };
    share_out(0, all, 0);
    return cheapest >= kNever / 2 || sum >= kNever / 2 ? kNever : sum + cheapest;
}

bool within_openings(const TwoLevelProblem& p, const TwoLevelCertificate& c) {
    for (const EdgePriceSet& prices : c.prices) {
        std::map<std::pair<EdgeId, bool>, Cost> sum;
        for (const auto& list : prices) {
            for (const EdgePrice& e : list)
                sum[{e.edge, e.backwards}] += e.price;
        }
        for (const auto& [arc, total] : sum) {
            if (total > p.edges[arc.first].opening * c.parts) return false;
        }
    }
    return true;
}

/// The least bound of any set of sites, all ways of sharing out the units accounted for.
Cost proved_by(const TwoLevelProblem& p, const TwoLevelCertificate& c) {
    std::int64_t all = 0;
    for (const auto& d : p.demands)
        all += d.units;
    Cost least = kNever;
    for (unsigned sites = 0; sites < 1U << p.sites.size(); ++sites) {
        const int count = __builtin_popcount(sites);
        if (count < p.fewest_sites || count > p.most_sites) continue;
        TwoLevelCertificate::SitesProof plain;
        for (std::int32_t s = 0; s < static_cast<std::int32_t>(p.sites.size()); ++s) {
            if ((sites >> s & 1U) == 0) continue;
            plain.sites.push_back(s);
            plain.units.push_back({0, all});
            plain.asks.push_back(c.asks[s]);
        }
        std::vector<const TwoLevelCertificate::SitesProof*> entries;
        for (const auto& entry : c.sets) {
            if (entry.sites == plain.sites) entries.push_back(&entry);
        }
        if (entries.empty()) least = std::min(least, proved_of(p, c, plain));
        for (const auto* entry : entries)
            least = std::min(least, proved_of(p, c, *entry));
        // Every way of sharing out the units lies in the ranges of some entry.
        if (entries.empty()) continue;
        std::vector<std::int64_t> share(plain.sites.size(), 0);
        const std::function<void(std::size_t)> each = [&](std::size_t k) {
            if (k < share.size()) {
                for (share[k] = 0; share[k] <= all; share[k] += units_in_common(p))
                    each(k + 1);
                return;
            }
            if (std::accumulate(share.begin(), share.end(), std::int64_t{0}) > all) return;
            CHECK(std::any_of(entries.begin(), entries.end(), [&](const auto* entry) {
                for (std::size_t i = 0; i < share.size(); ++i) {
                    if (share[i] < entry->units[i].least || share[i] > entry->units[i].most) return false;
                }
                return true;
            }));
        };
        each(0);
    }
    return least;
}

}  // namespace

TEST_CASE("a bound proved set by set follows from its certificate by plain arithmetic") {
    std::mt19937 random(4);
    int certified = 0;
    int with_ranges = 0;
    for (int run = 0; run < effort(120); ++run) {
        CAPTURE(run);
        const TwoLevelProblem p = even_problem(random, run % 3 == 0);
        const TwoLevelSolution s = solve(p, SolveLimits{});
        if (!s.plan || !s.certificate) continue;
        ++certified;
        REQUIRE(within_openings(p, *s.certificate));
        const Cost proved = proved_by(p, *s.certificate);
        CHECK(s.bound <= s.plan->value);
        CHECK(std::min(proved, s.plan->value * s.certificate->parts) > (s.bound - 1) * s.certificate->parts);
        for (const auto& entry : s.certificate->sets) {
            for (const auto& units : entry.units)
                with_ranges += units.least > 0 ? 1 : 0;
        }
    }
    MESSAGE(certified << " certified, " << with_ranges << " ranges that begin above nothing");
    CHECK(certified > effort(40));
    CHECK(with_ranges > 0);
}

TEST_CASE("feeders that follow the demands' trench are bounded exactly where a shorter way would have to be opened") {
    TwoLevelProblem p;
    p.vertex_count = 3;
    p.edges = {{0, 1, 50, 10, 0}, {1, 2, 10, 10, 0}, {0, 2, 100, 10, 0}};
    p.demands = {{1, 1, 1, 1, std::nullopt}, {2, 1, 1, 1, std::nullopt}};
    p.sites = {{2, 0}, {1, 1000}};
    p.sizes = {{2, 3, 1, 5}};
    p.fewest_sites = 1;
    p.most_sites = 2;
    const TwoLevelSolution s = solve(p, SolveLimits{});
    REQUIRE(s.plan);
    CHECK(s.plan->value == 50 + 10 + 10 + 5 + 3 * 20);  // Over the shortest way the feeder would cost 30 less.
    CHECK(s.bound == s.plan->value);
    REQUIRE(s.certificate);
    CHECK(proved_by(p, *s.certificate) > (s.bound - 1) * s.certificate->parts);
}
