#include "routing/one_measure.hpp"

#include <algorithm>
#include <map>

namespace spadework {

namespace {

__extension__ using Wide = __int128;
using graph::Cost;

/// Passage cost of an edge a length unit, rounded down.
Cost passage_rate(const graph::SharedCostEdge& edge) {
    return edge.length > 0 ? edge.passage / edge.length : 0;
}

/// The passage rate that most length has.
Cost common_rate(const graph::SharedCostProblem& problem) {
    std::map<Cost, Cost> length_at;
    for (const graph::SharedCostEdge& edge : problem.edges)
        length_at[passage_rate(edge)] += edge.length;
    Cost common = 0;
    Cost longest = -1;
    for (const auto& [rate, length] : length_at) {
        if (length <= longest) continue;
        common = rate;
        longest = length;
    }
    return common;
}

/// How much one unit of passage counts for a demand against one unit of its own weight: multiplicity / weight.
struct Share {
    Cost multiplicity = 0;
    Cost weight = 1;
    [[nodiscard]] bool below(const Share& other) const {
        return static_cast<Wide>(multiplicity) * other.weight < static_cast<Wide>(other.multiplicity) * weight;
    }
};

struct ShareRange {
    Share least;
    Share most;
};

/// Least and most share of any demand, once the common rate is in the weights. Demands that pay nothing have none.
ShareRange shares_of(const graph::SharedCostProblem& problem, Cost common) {
    ShareRange range;
    bool first = true;
    for (const graph::Demand& demand : problem.demands) {
        const Cost weight = demand.weight + demand.multiplicity * common;
        if (weight <= 0) continue;
        const Share share{demand.multiplicity, weight};
        if (first || share.below(range.least)) range.least = share;
        if (first || range.most.below(share)) range.most = share;
        first = false;
    }
    return range;
}

/// Length that stands for the edge's own length and for what its passage is above or below the common rate; never more
/// than any demand would count.
graph::Length measured(const graph::SharedCostEdge& edge, Cost common, const ShareRange& shares) {
    const Wide over = static_cast<Wide>(edge.passage) - static_cast<Wide>(common) * edge.length;
    if (over >= 0)
        return edge.length + static_cast<graph::Length>(over * shares.least.multiplicity / shares.least.weight);
    const Wide taken = (-over * shares.most.multiplicity + shares.most.weight - 1) / shares.most.weight;
    return std::max<graph::Length>(0, edge.length - static_cast<graph::Length>(taken));
}

/// Demands that weigh nothing but pay passages fit no measure.
bool fits(const graph::SharedCostProblem& problem, Cost common) {
    return std::all_of(problem.demands.begin(), problem.demands.end(), [common](const graph::Demand& demand) {
        return demand.multiplicity == 0 || demand.weight + demand.multiplicity * common > 0;
    });
}

void take_better_plan(const graph::SharedCostProblem& problem, graph::SharedCostSolution& best,
                      const graph::SharedCostSolution& other) {
    if (!other.plan) return;
    graph::SharedCostPlan plan = *other.plan;
    const auto cost = graph::cost_of(problem, plan);
    if (!cost || (best.plan && *cost >= best.plan->value)) return;
    plan.value = *cost;
    best.plan = std::move(plan);
}

/// Whether the original is quickly solved as well: many candidate roots on a large network take long and prove little.
bool quick_as_it_is(const graph::SharedCostProblem& problem) {
    constexpr std::size_t small = 20'000;
    return problem.edges.size() * problem.demands.size() < small;
}

void take_better_bounds(graph::SharedCostSolution& best, const graph::SharedCostSolution& other) {
    for (std::size_t r = 0; r < best.root_bounds.size(); ++r)
        best.root_bounds[r] = std::max(best.root_bounds[r], other.root_bounds[r]);
    if (other.bound > best.bound) {
        best.bound = other.bound;
        best.certificate = other.certificate;
    }
}

/// A plan sketched in the original from the root the one measure chose may come out better there.
void try_sketch(const graph::SharedCostProblem& problem, const graph::SolveLimits& limits,
                graph::SharedCostSolution& best) {
    if (!best.plan) return;
    graph::SharedCostProblem here = problem;
    const std::int32_t root = best.plan->root;
    here.roots = {problem.roots[static_cast<std::size_t>(root)]};
    graph::SharedCostSolution sketched = graph::sketch(here, limits);
    if (sketched.plan) sketched.plan->root = root;
    take_better_plan(problem, best, sketched);
}

}  // namespace

OneMeasure in_one_measure(const graph::SharedCostProblem& problem) {
    const Cost common = common_rate(problem);
    const ShareRange shares = shares_of(problem, common);
    OneMeasure measure{problem, true};
    for (graph::SharedCostEdge& edge : measure.problem.edges) {
        measure.exact = measure.exact && passage_rate(edge) == common && (edge.length > 0 || edge.passage == 0);
        edge.length = measured(edge, common, shares);
        edge.passage = 0;
    }
    for (graph::Demand& demand : measure.problem.demands) {
        demand.weight += demand.multiplicity * common;
        demand.multiplicity = 0;
    }
    measure.exact = measure.exact && fits(problem, common);
    return measure;
}

MeasuredSolution solve_by_measure(const graph::SharedCostProblem& problem, const graph::SolveLimits& limits) {
    const OneMeasure measure = in_one_measure(problem);
    graph::SolveLimits run = limits;
    run.seconds = limits.seconds / 2;
    const graph::SharedCostSolution measured = graph::solve(measure.problem, measure.exact ? limits : run);
    MeasuredSolution best{measured, {{measure.problem, measured.certificate}}};
    best.plan.reset();
    best.optimal = false;
    take_better_plan(problem, best, measured);
    if (measure.exact) return best;
    if (quick_as_it_is(problem)) {
        const graph::SharedCostSolution plain = graph::solve(problem, run);
        best.proofs.push_back({problem, plain.certificate});
        take_better_bounds(best, plain);
        take_better_plan(problem, best, plain);
    } else {
        try_sketch(problem, run, best);
    }
    return best;
}

}  // namespace spadework
