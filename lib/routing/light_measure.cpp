#include "routing/light_measure.hpp"

#include <algorithm>
#include <limits>

#include "graph/saturating.hpp"
#include "graph/stepped_ways.hpp"
#include "routing/one_measure.hpp"

namespace spadework {

namespace {

__extension__ using Wide = __int128;
using graph::add;
using graph::Cost;
using graph::path_charge;
using graph::times;

constexpr int tries = 4;
constexpr Cost least_percent = 30;  ///< Of a heavy cable's own weight: less would leave out nearly all it pays.

/// What one cable pays a length unit at the common passage rate.
Cost full_weight(const graph::Demand& demand, Cost common) {
    return add(demand.weight, times(demand.multiplicity, common));
}

/// Whether passage means less to one than to the other, against what each pays a length unit.
bool means_less(const graph::Demand& one, const graph::Demand& other, Cost common) {
    return static_cast<Wide>(one.multiplicity) * full_weight(other, common) <
           static_cast<Wide>(other.multiplicity) * full_weight(one, common);
}

/// The cables to which passage means most and least.
struct Extremes {
    graph::Demand light;
    graph::Demand heavy;
};

std::optional<Extremes> extremes_of(const std::vector<graph::Demand>& demands, Cost common) {
    std::optional<Extremes> found;
    for (const graph::Demand& demand : demands) {
        if (full_weight(demand, common) <= 0) continue;
        if (!found) found = Extremes{demand, demand};
        if (means_less(found->light, demand, common)) found->light = demand;
        if (means_less(demand, found->heavy, common)) found->heavy = demand;
    }
    if (!found || !means_less(found->heavy, found->light, common)) return std::nullopt;
    return found;
}

/// Lengths by which no edge charges the light cable more than it pays, nor a cable of the heavy one's kind that pays
/// `heavy_weight` a length unit.
std::vector<graph::Length> lengths_for(const graph::SharedCostProblem& problem, const Extremes& extremes, Cost common,
                                       Cost heavy_weight) {
    std::vector<graph::Length> lengths;
    for (const graph::SharedCostEdge& edge : problem.edges) {
        const Cost by_light = path_charge(extremes.light, edge) / full_weight(extremes.light, common);
        const Cost by_heavy = path_charge(extremes.heavy, edge) / heavy_weight;
        lengths.push_back(std::min(by_light, by_heavy));
    }
    return lengths;
}

/// The most that the demand may be charged a length unit so that it is charged too much on no edge.
Cost weight_for(const graph::Demand& demand, const graph::SharedCostProblem& problem,
                const std::vector<graph::Length>& lengths) {
    Cost weight = std::numeric_limits<Cost>::max();
    for (std::size_t e = 0; e < lengths.size(); ++e) {
        if (lengths[e] > 0) weight = std::min(weight, path_charge(demand, problem.edges[e]) / lengths[e]);
    }
    return weight == std::numeric_limits<Cost>::max() ? 0 : weight;
}

/// What the charges leave out of the demand's ways from each root, at least; empty where it is less than rounding.
std::vector<Cost> left_out_of(std::size_t demand, const graph::SharedCostProblem& original,
                              const graph::SharedCostProblem& measured, graph::SteppedWays& ways) {
    graph::ArcCosts costs;
    const Cost weight = measured.demands[demand].weight;
    bool much = false;
    for (std::size_t e = 0; e < original.edges.size(); ++e) {
        const Cost charged = times(weight, measured.edges[e].length);
        costs[0].push_back(path_charge(original.demands[demand], original.edges[e]) - charged);
        much = much || costs[0].back() > weight;
    }
    if (!much) return {};
    costs[1] = costs[0];
    ways.aim_at(original.demands[demand].at, costs, 0);
    std::vector<Cost> left_out;
    for (const graph::RootOption& root : original.roots) {
        const Cost way = ways.straight_from(root.at);
        left_out.push_back(way == graph::kLargestCost ? 0 : way);
    }
    return left_out;
}

LightMeasure measured_with(const graph::SharedCostProblem& problem, const Extremes& extremes, Cost common,
                           Cost heavy_weight, graph::SteppedWays& ways) {
    LightMeasure measure{problem, {}};
    const std::vector<graph::Length> lengths = lengths_for(problem, extremes, common, heavy_weight);
    for (std::size_t e = 0; e < lengths.size(); ++e) {
        measure.problem.edges[e].length = lengths[e];
        measure.problem.edges[e].passage = 0;
    }
    for (std::size_t d = 0; d < problem.demands.size(); ++d) {
        measure.problem.demands[d].weight = weight_for(problem.demands[d], problem, lengths);
        measure.problem.demands[d].multiplicity = 0;
        measure.left_out.push_back(left_out_of(d, problem, measure.problem, ways));
        for (std::size_t r = 0; r < measure.left_out.back().size(); ++r) {
            Cost& cost = measure.problem.roots[r].cost;
            cost = add(cost, measure.left_out.back()[r]);
        }
    }
    return measure;
}

/// The heavy cable's weight at which the lengths suit the light one everywhere, or what is thought worth a try.
Cost lowest_weight(const graph::SharedCostProblem& problem, const Extremes& extremes, Cost common) {
    const Cost full = full_weight(extremes.heavy, common);
    Cost weight = full;
    for (const graph::SharedCostEdge& edge : problem.edges) {
        const Cost length = path_charge(extremes.light, edge) / full_weight(extremes.light, common);
        if (length > 0) weight = std::min(weight, path_charge(extremes.heavy, edge) / length);
    }
    return std::max({weight, static_cast<Cost>(static_cast<Wide>(full) * least_percent / 100), Cost{1}});
}

}  // namespace

std::optional<LightMeasure> in_light_measure(const graph::SharedCostProblem& problem, const graph::SharedCostPlan& plan,
                                             Cost least) {
    const Cost common = common_passage_rate(problem.edges);
    const auto extremes = extremes_of(problem.demands, common);
    if (!extremes) return std::nullopt;
    const Cost full = full_weight(extremes->heavy, common);
    const Cost lowest = lowest_weight(problem, *extremes, common);
    graph::SteppedWays ways(problem.vertex_count, problem.edges);
    std::optional<LightMeasure> best;
    for (int i = 1; i <= tries && lowest < full; ++i) {
        const Cost weight = full - static_cast<Cost>(static_cast<Wide>(full - lowest) * i / tries);
        LightMeasure measure = measured_with(problem, *extremes, common, weight, ways);
        const auto cost = graph::cost_of(measure.problem, plan);
        if (!cost || *cost <= least) continue;
        least = *cost;
        best = std::move(measure);
    }
    return best;
}

}  // namespace spadework
