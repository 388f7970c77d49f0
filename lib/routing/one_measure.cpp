#include "routing/one_measure.hpp"

#include <algorithm>
#include <map>

#include "graph/two_level_even.hpp"
#include "routing/light_measure.hpp"

namespace spadework {

namespace {

constexpr double kMostWorkForLight = 4e6;  ///< Demands times edges: to measure for light cables takes long beyond.

__extension__ using Wide = __int128;
using graph::Cost;

/// Passage cost of an edge a length unit, rounded down.
Cost passage_rate(const graph::SharedCostEdge& edge) {
    return edge.length > 0 ? edge.passage / edge.length : 0;
}

using Edges = std::vector<graph::SharedCostEdge>;

/// How much one unit of passage counts for a cable against one unit of its own weight: multiplicity / weight.
struct Share {
    Cost multiplicity = 0;
    Cost weight = 1;
    [[nodiscard]] bool below(const Share& other) const {
        return static_cast<Wide>(multiplicity) * other.weight < static_cast<Wide>(other.multiplicity) * weight;
    }
};

/// What some cable pays: a length unit, and how many times a passage.
struct Payer {
    Cost weight = 0;
    Cost multiplicity = 0;
};

struct ShareRange {
    Share least;
    Share most;
};

/// Least and most share of any cable, once the common rate is in the weights. Those that pay nothing have none.
ShareRange shares_of(const std::vector<Payer>& payers, Cost common) {
    ShareRange range;
    bool first = true;
    for (const Payer& payer : payers) {
        const Cost weight = payer.weight + payer.multiplicity * common;
        if (weight <= 0) continue;
        const Share share{payer.multiplicity, weight};
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

/// Payers that weigh nothing but pay passages fit no measure.
bool fits(const std::vector<Payer>& payers, Cost common) {
    return std::all_of(payers.begin(), payers.end(), [common](const Payer& payer) {
        return payer.multiplicity == 0 || payer.weight + payer.multiplicity * common > 0;
    });
}

/// Edges without passage, and whether they say all that the original ones do.
struct MeasuredEdges {
    Edges edges;
    Cost common = 0;  ///< Passage a length unit that has gone into the weights.
    bool exact = true;
};

MeasuredEdges measured(const Edges& edges, const std::vector<Payer>& payers) {
    MeasuredEdges result{edges, common_passage_rate(edges), true};
    const ShareRange shares = shares_of(payers, result.common);
    for (graph::SharedCostEdge& edge : result.edges) {
        result.exact = result.exact && passage_rate(edge) == result.common && (edge.length > 0 || edge.passage == 0);
        edge.length = measured(edge, result.common, shares);
        edge.passage = 0;
    }
    result.exact = result.exact && fits(payers, result.common);
    return result;
}

/// Puts the passage that is common into what the cable pays a length unit.
template <typename Cable>
void take_in(Cable& cable, Cost common) {
    cable.weight += cable.multiplicity * common;
    cable.multiplicity = 0;
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

/// Whether what the one measure leaves between plan and bound is too little to look for in the original: the measure's
/// own rounding, and the gap at which solvers stop.
bool leaves_nothing(const MeasuredSolution& best, const graph::SolveLimits& limits) {
    constexpr double rounding = 1e-5;
    if (!best.plan) return false;
    const auto value = static_cast<double>(best.plan->value);
    return value - static_cast<double>(best.bound) <= (1.1 * limits.target_gap + rounding) * value;
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

/// A problem in the measure that charges a plan most, with what its charges leave out.
LightMeasure closest_measure(const graph::SharedCostProblem& problem, const graph::SharedCostProblem& one_measure,
                             const graph::SolveLimits& limits) {
    const double work = static_cast<double>(problem.demands.size()) * static_cast<double>(problem.edges.size());
    if (work > kMostWorkForLight) return {one_measure, {}};
    const graph::SharedCostSolution sketched = graph::sketch(one_measure, limits);
    if (sketched.plan) {
        const Cost known = graph::cost_of(one_measure, *sketched.plan).value_or(0);
        if (auto light = in_light_measure(problem, *sketched.plan, known)) return std::move(*light);
    }
    return {one_measure, {}};
}

}  // namespace

Cost common_passage_rate(const std::vector<graph::SharedCostEdge>& edges) {
    std::map<Cost, Cost> length_at;
    for (const graph::SharedCostEdge& edge : edges)
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

OneMeasure in_one_measure(const graph::SharedCostProblem& problem) {
    std::vector<Payer> payers;
    for (const graph::Demand& demand : problem.demands)
        payers.push_back({demand.weight, demand.multiplicity});
    MeasuredEdges measured_edges = measured(problem.edges, payers);
    OneMeasure measure{problem, measured_edges.exact};
    measure.problem.edges = std::move(measured_edges.edges);
    for (graph::Demand& demand : measure.problem.demands)
        take_in(demand, measured_edges.common);
    return measure;
}

TwoLevelMeasure in_one_measure(const graph::TwoLevelProblem& problem) {
    std::vector<Payer> payers;
    for (const graph::TwoLevelDemand& demand : problem.demands) {
        payers.push_back({demand.weight, demand.multiplicity});
        if (demand.direct) payers.push_back({demand.direct->weight, demand.direct->multiplicity});
    }
    for (const graph::FeederSize& size : problem.sizes)
        payers.push_back({size.weight, size.multiplicity});
    MeasuredEdges measured_edges = measured(problem.edges, payers);
    TwoLevelMeasure measure{problem, measured_edges.exact};
    measure.problem.edges = std::move(measured_edges.edges);
    for (graph::TwoLevelDemand& demand : measure.problem.demands) {
        take_in(demand, measured_edges.common);
        if (demand.direct) take_in(*demand.direct, measured_edges.common);
    }
    for (graph::FeederSize& size : measure.problem.sizes)
        take_in(size, measured_edges.common);
    return measure;
}

MeasuredSolution solve_by_measure(const graph::SharedCostProblem& problem, const graph::SolveLimits& limits) {
    const OneMeasure measure = in_one_measure(problem);
    graph::SolveLimits run = limits;
    run.seconds = limits.seconds / 2;
    LightMeasure solved =
        measure.exact ? LightMeasure{measure.problem, {}} : closest_measure(problem, measure.problem, run);
    const graph::SharedCostSolution measured = graph::solve(solved.problem, measure.exact ? limits : run);
    MeasuredSolution best{measured, {}};
    best.proofs.push_back({std::move(solved.problem), measured.certificate, std::move(solved.left_out)});
    best.plan.reset();
    best.optimal = false;
    take_better_plan(problem, best, measured);
    if (measure.exact || leaves_nothing(best, limits)) return best;
    if (quick_as_it_is(problem)) {
        graph::SolveLimits whole = run;
        whole.most_splits = 0;  // Where demands measure ways differently, splits need not close the gap.
        const graph::SharedCostSolution plain = graph::solve(problem, whole);
        best.proofs.push_back({problem, plain.certificate, {}});
        take_better_bounds(best, plain);
        take_better_plan(problem, best, plain);
    } else {
        try_sketch(problem, run, best);
    }
    return best;
}

namespace {

/// The plan priced as the original does; nothing where there is none.
void reprice(const graph::TwoLevelProblem& problem, std::optional<graph::TwoLevelPlan>& plan) {
    if (!plan) return;
    if (const auto value = graph::cost_of(problem, *plan)) {
        plan->value = *value;
    } else {
        plan.reset();
    }
}

void reprice(const graph::TwoLevelProblem& problem, std::vector<graph::TwoLevelPlan>& plans) {
    std::erase_if(plans, [&problem](graph::TwoLevelPlan& plan) {
        const auto value = graph::cost_of(problem, plan);
        plan.value = value.value_or(0);
        return !value;
    });
}

std::vector<graph::TwoLevelStart> starts_from(const graph::TwoLevelSolution& solution) {
    std::vector<graph::TwoLevelStart> starts;
    for (const auto& plan : solution.best_by_count) {
        if (plan) starts.push_back(graph::start_from(*plan));
    }
    return starts;
}

void keep_cheaper(std::optional<graph::TwoLevelPlan>& best, const std::optional<graph::TwoLevelPlan>& other) {
    if (other && (!best || other->value < best->value)) best = other;
}

}  // namespace

MeasuredTwoLevel solve_by_measure(const graph::TwoLevelProblem& problem, const graph::SolveLimits& limits) {
    if (graph::two_level::even_shares(problem)) return {graph::solve(problem, limits), problem};
    const TwoLevelMeasure measure = in_one_measure(problem);
    graph::SolveLimits run = limits;
    if (!measure.exact) run.seconds = limits.seconds * 0.8;
    MeasuredTwoLevel best{graph::solve(measure.problem, run), measure.problem};
    reprice(problem, best.plan);
    for (auto& plan : best.best_by_count)
        reprice(problem, plan);
    reprice(problem, best.near_best);
    if (measure.exact) return best;
    run.seconds = limits.seconds * 0.2;
    run.target_gap = 1.0;
    const graph::TwoLevelSolution plain = graph::solve(problem, run, starts_from(best));
    keep_cheaper(best.plan, plain.plan);
    best.near_best.insert(best.near_best.end(), plain.near_best.begin(), plain.near_best.end());
    for (std::size_t count = 0; count < std::min(best.best_by_count.size(), plain.best_by_count.size()); ++count)
        keep_cheaper(best.best_by_count[count], plain.best_by_count[count]);
    return best;
}

}  // namespace spadework
