#include "graph/ring_solver.hpp"

#include <algorithm>

#include "graph/ring_bound.hpp"
#include "graph/ring_figures.hpp"
#include "graph/ring_search.hpp"

namespace spadework::graph {

namespace {

constexpr int kShakesBefore = 8;
constexpr int kShakesIfRoughly = 100;
constexpr double kFewestShakesAfter = 400;
constexpr double kMostShakesAfter = 2200;
constexpr double kShakeWork = 5e8;  ///< Shakes times stops and links, between these two.
constexpr int kInsisting = 4;       ///< Times that hops too long are charged more.
constexpr int kShakesInsisting = 200;
constexpr double kRoughly = 0.01;     ///< Who is content with such a gap wants it quickly.
constexpr double kFirstShare = 0.25;  ///< Of the time allowed, for a first plan.
constexpr double kBoundShare = 0.6;   ///< Of what is left then, for the bound.

std::vector<EdgeId> edges_along(const rings::LinkNetwork& network, const std::vector<std::int64_t>& uses, VertexId from,
                                const rings::LinkPath& path) {
    std::vector<EdgeId> edges;
    for (const std::int32_t l : path) {
        const rings::Link& link = network.links[l];
        std::vector<EdgeId> more = link.ways[link.cheapest_way(uses[l])].edges;
        if (link.tail != from) std::reverse(more.begin(), more.end());
        edges.insert(edges.end(), more.begin(), more.end());
        from = link.tail == from ? link.head : link.tail;
    }
    return edges;
}

/// The rounds in the terms of the problem, priced anew; nothing should they turn out to be no plan.
std::optional<RingPlan> plan_from(const RingProblem& problem, const rings::LinkNetwork& network,
                                  const rings::Rounds& rounds) {
    std::vector<std::int64_t> uses(network.links.size(), 0);
    for (const rings::Round& round : rounds) {
        for (const rings::LinkPath& hop : round.hops) {
            for (const std::int32_t l : hop)
                ++uses[l];
        }
    }
    RingPlan plan;
    for (const rings::Round& round : rounds) {
        RingPlan::Ring& ring = plan.rings.emplace_back();
        VertexId from = network.source;
        for (std::size_t i = 0; i < round.stops.size(); ++i) {
            ring.hops.push_back({round.stops[i], edges_along(network, uses, from, round.hops[i])});
            from = network.stops[round.stops[i]];
        }
        ring.back = edges_along(network, uses, from, round.hops.back());
        std::reverse(ring.back.begin(), ring.back.end());
    }
    const auto value = cost_of(problem, plan);
    if (!value) return std::nullopt;
    plan.value = *value;
    return plan;
}

int shakes_worth(const rings::LinkNetwork& network, const SolveLimits& limits) {
    if (limits.target_gap >= kRoughly) return kShakesIfRoughly;
    const double work = static_cast<double>(network.stops.size()) * static_cast<double>(network.links.size()) + 1.0;
    return static_cast<int>(std::clamp(kShakeWork / work, kFewestShakesAfter, kMostShakesAfter));
}

/// Goes on while some hop is too long, each time more intent on having none.
void shorten_hops(rings::Search& search, const pair_routes::StopRule& time) {
    for (int i = 0; i < kInsisting && search.reaches_too_far() && !time.reached(); ++i) {
        search.insist();
        search.shake(kShakesInsisting);
    }
}

void take_plan(const RingProblem& problem, const rings::LinkNetwork& network, const rings::Rounds& rounds,
               RingSolution& solution) {
    solution.plan = plan_from(problem, network, rounds);
    if (solution.plan || problem.span_of.empty()) return;
    RingProblem at_any_length = problem;
    at_any_length.span_of.clear();
    solution.with_long_hops = plan_from(at_any_length, network, rounds);
}

void tell(const SolveLimits& limits, Cost value, Cost bound) {
    if (limits.progress != nullptr) limits.progress->improved(value, bound);
}

}  // namespace

RingSolution solve(const RingProblem& problem, const SolveLimits& limits) {
    RingSolution solution;
    if (!rings::well_formed(problem)) return solution;
    const auto network = rings::link_network(problem);
    if (!network) return solution;
    const pair_routes::StopRule all_time(limits.seconds, limits.progress);
    const pair_routes::StopRule first_time(limits.seconds * kFirstShare, limits.progress);
    const rings::RingFigures figures{problem.ring_cost, problem.longest_ring};
    rings::Search search(*network, figures, first_time, limits.seed);
    search.construct();
    search.improve();
    search.shake(kShakesBefore);
    solution.bound = rings::least_for_rings(problem);
    tell(limits, search.cost(), solution.bound);

    if (limits.target_gap < 1.0) {
        SolveLimits for_bound = limits;
        for_bound.seconds = all_time.seconds_left() * kBoundShare;
        const pair_routes::StopRule bound_time(for_bound.seconds, limits.progress);
        search.obey(bound_time);
        solution.certificate =
            rings::prices_for(problem, search.cost(), for_bound, [&](const std::vector<double>& use) {
                search.follow(problem.edges, use);
                return search.cost();
            });
        solution.bound = ring_bound_proved(problem, solution.certificate).value_or(0);
    }
    search.obey(all_time);
    search.shake(shakes_worth(*network, limits));
    shorten_hops(search, all_time);
    take_plan(problem, *network, search.rounds(), solution);
    if (solution.plan) tell(limits, solution.plan->value, solution.bound);
    solution.interrupted = all_time.reached();
    return solution;
}

}  // namespace spadework::graph
